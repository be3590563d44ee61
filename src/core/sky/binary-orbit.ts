import type { CatalogueBinary } from '../../../data/nav-stars.json';
import { J2000_JD } from '../units/time-scales.js';

const DEG = Math.PI / 180;
const ARCSEC = Math.PI / 648000;
const DAYS_PER_YEAR = 365.25;
const KEPLER_STEPS = 30;

/** Which point of the system is wanted: its light as the eye sees it, or the brighter star alone. */
export type BinaryPoint = 'light' | 'primary';

/**
 * Moves a direction from the barycentre of a binary to the centre of its light (or to the primary).
 * Orbit of B about A by the Thiele-Innes constants (Heintz 1978, Double Stars, ch. 4; from memory): position angle from
 * north through east.
 * @param v direction of the barycentre, changed in place
 * @param tt Julian date
 */
export function orbitOffset(
  binary: CatalogueBinary,
  tt: number,
  v: Float64Array,
  point: BinaryPoint = 'light',
): void {
  const { eastArcsec, northArcsec } = separation(binary, tt);
  const share =
    (point === 'light' ? binary.lightFractionB : 0) - binary.orbitOfBAboutA.massFractionB;
  const [east, north] = [share * eastArcsec * ARCSEC, share * northArcsec * ARCSEC];
  const [x, y, z] = v as unknown as [number, number, number];
  const r = Math.hypot(x, y, z);
  const rho = Math.hypot(x, y);
  const [cr, sr, cd, sd] = [x / rho, y / rho, rho / r, z / r];
  v[0] = x + r * (-east * sr - north * sd * cr);
  v[1] = y + r * (east * cr - north * sd * sr);
  v[2] = z + r * north * cd;
}

/** Place of B from A, seconds of arc toward east and north (ICRS). @param tt Julian date */
export function separation(
  binary: CatalogueBinary,
  tt: number,
): { eastArcsec: number; northArcsec: number } {
  const o = binary.orbitOfBAboutA;
  const year = 2000 + (tt - J2000_JD) / DAYS_PER_YEAR;
  const mean = 2 * Math.PI * (((year - o.periastronYr) / o.periodYr) % 1);
  const eccentric = kepler(mean, o.e);
  const x = o.aArcsec * (Math.cos(eccentric) - o.e);
  const y = o.aArcsec * Math.sqrt(1 - o.e * o.e) * Math.sin(eccentric);
  const [cw, sw] = [Math.cos(o.argPeriDeg * DEG), Math.sin(o.argPeriDeg * DEG)];
  const [cn, sn] = [Math.cos(o.nodeDeg * DEG), Math.sin(o.nodeDeg * DEG)];
  const ci = Math.cos(o.iDeg * DEG);
  return {
    northArcsec: x * (cw * cn - sw * sn * ci) + y * (-sw * cn - cw * sn * ci),
    eastArcsec: x * (cw * sn + sw * cn * ci) + y * (-sw * sn + cw * cn * ci),
  };
}

/** Eccentric anomaly by Newton's method, radians. */
function kepler(mean: number, e: number): number {
  let eccentric = mean + e * Math.sin(mean);
  for (let i = 0; i < KEPLER_STEPS; i++) {
    const step = (eccentric - e * Math.sin(eccentric) - mean) / (1 - e * Math.cos(eccentric));
    eccentric -= step;
    if (Math.abs(step) < 1e-12) break;
  }
  return eccentric;
}
