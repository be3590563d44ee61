import table from '../../../data/nutation.json';

const ARCSEC = Math.PI / 648000;
const CIRCLE_ARCSEC = 1296000;
const TERMS = Float64Array.from(table.terms.flat());
const COLUMNS = 11;
/** IAU 2000B: stand-in for the planetary terms, seconds of arc. */
const OFFSET_PSI = -0.000135;
const OFFSET_EPS = 0.000388;

/** Fundamental arguments l, l′, F, D, Ω in radians (IERS Conventions 2003, eq. 5.43). @param t Julian centuries TT from J2000. */
export function fundamentalArguments(t: number, out: Float64Array): void {
  const polynomial = (a: number, b: number, c: number, d: number, e: number) =>
    ((a + t * (b + t * (c + t * (d + t * e)))) % CIRCLE_ARCSEC) * ARCSEC;
  out[0] = polynomial(485868.249036, 1717915923.2178, 31.8792, 0.051635, -0.0002447);
  out[1] = polynomial(1287104.79305, 129596581.0481, -0.5532, 0.000136, -0.00001149);
  out[2] = polynomial(335779.526232, 1739527262.8478, -12.7512, -0.001037, 0.00000417);
  out[3] = polynomial(1072260.70369, 1602961601.209, -6.3706, 0.006593, -0.00003169);
  out[4] = polynomial(450160.398036, -6962890.5431, 7.4722, 0.007702, -0.00005939);
}

/** Mean longitude of the Moon's ascending node, radians. @param t Julian centuries TT from J2000. */
export const moonNode = (t: number): number =>
  ((450160.398036 + t * (-6962890.5431 + t * 7.4722)) % CIRCLE_ARCSEC) * ARCSEC;

const args = new Float64Array(5);

/**
 * Nutation in longitude and obliquity by IAU 2000B (McCarthy & Luzum 2003), within 0.001″ of IAU 2000A in 1995–2050.
 * @param t Julian centuries TT from J2000
 * @param out receives Δψ, Δε in seconds of arc
 */
export function nutationSeries(t: number, out: Float64Array): void {
  fundamentalArguments(t, args);
  const [l, lp, f, d, om] = args as unknown as [number, number, number, number, number];
  let psi = 0;
  let eps = 0;
  for (let i = 0; i < TERMS.length; i += COLUMNS) {
    const r = (k: number) => TERMS[i + k] as number;
    const a = r(0) * l + r(1) * lp + r(2) * f + r(3) * d + r(4) * om;
    const s = Math.sin(a);
    const c = Math.cos(a);
    psi += (r(5) + r(6) * t) * s + r(7) * c;
    eps += (r(8) + r(9) * t) * c + r(10) * s;
  }
  out[0] = psi * 1e-7 + OFFSET_PSI;
  out[1] = eps * 1e-7 + OFFSET_EPS;
}
