import { J2000_JD } from '../units/time-scales.js';
import { moonNode } from './nutation.js';

const ARCSEC = Math.PI / 648000;
const TURN = 2 * Math.PI;

/** True equator and equinox of date: the rotation from ICRS, and what sidereal time needs. */
export interface EarthFrame {
  /** Rows of the matrix that takes an ICRS vector to the true equator and equinox of date. */
  readonly matrix: Float64Array;
  /** Equation of the equinoxes and accumulated precession: GAST − ERA, radians. */
  gastMinusEra: number;
}

export const newFrame = (): EarthFrame => ({ matrix: new Float64Array(9), gastMinusEra: 0 });

/**
 * Precession IAU 2006 with frame bias in the angles of Fukushima and Williams (Capitaine & Wallace 2006, A&A 450, 855;
 * coefficients as in ERFA `pfw06`, `gmst06`), and the nutation given.
 * @param tt Julian date
 * @param psiArcsec nutation in longitude, seconds of arc. @param epsArcsec nutation in obliquity
 */
export function setFrame(
  frame: EarthFrame,
  tt: number,
  psiArcsec: number,
  epsArcsec: number,
): void {
  const t = (tt - J2000_JD) / 36525;
  const gamma =
    (-0.052928 +
      t *
        (10.556378 + t * (0.4932044 + t * (-0.00031238 + t * (-0.000002788 + t * 0.000000026))))) *
    ARCSEC;
  const phi =
    (84381.412819 +
      t *
        (-46.811016 + t * (0.0511268 + t * (0.00053289 + t * (-0.00000044 - t * 0.0000000176))))) *
    ARCSEC;
  const psi =
    (-0.041775 +
      t *
        (5038.481484 +
          t * (1.5584175 + t * (-0.00018522 + t * (-0.000026452 - t * 0.0000000148))))) *
    ARCSEC;
  const eps =
    (84381.406 +
      t *
        (-46.836769 + t * (-0.0001831 + t * (0.0020034 + t * (-0.000000576 - t * 0.0000000434))))) *
    ARCSEC;
  const dpsi = psiArcsec * ARCSEC;
  rotation(frame.matrix, gamma, phi, psi + dpsi, eps + epsArcsec * ARCSEC);
  const node = moonNode(t);
  const complementary = (0.00264096 * Math.sin(node) + 0.00006352 * Math.sin(2 * node)) * ARCSEC;
  const precession =
    (0.014506 +
      t *
        (4612.156534 +
          t * (1.3915817 + t * (-0.00000044 + t * (-0.000029956 - t * 0.0000000368))))) *
    ARCSEC;
  frame.gastMinusEra = precession + dpsi * Math.cos(eps) + complementary;
}

/** R1(−ε) R3(−ψ) R1(φ) R3(γ), row by row. */
function rotation(m: Float64Array, gamma: number, phi: number, psi: number, eps: number): void {
  const [cg, sg, cf, sf] = [Math.cos(gamma), Math.sin(gamma), Math.cos(phi), Math.sin(phi)];
  const [cp, sp, ce, se] = [Math.cos(psi), Math.sin(psi), Math.cos(eps), Math.sin(eps)];
  // After R1(φ) R3(γ): rows a, b, c.
  const [b0, b1, b2] = [-cf * sg, cf * cg, sf];
  const [c0, c1, c2] = [sf * sg, -sf * cg, cf];
  // R3(−ψ): a′ = cp a − sp b, b′ = sp a + cp b, with a = (cg, sg, 0).
  m[0] = cp * cg - sp * b0;
  m[1] = cp * sg - sp * b1;
  m[2] = -sp * b2;
  const [q0, q1, q2] = [sp * cg + cp * b0, sp * sg + cp * b1, cp * b2];
  // R1(−ε): b″ = ce b′ − se c, c″ = se b′ + ce c.
  m[3] = ce * q0 - se * c0;
  m[4] = ce * q1 - se * c1;
  m[5] = ce * q2 - se * c2;
  m[6] = se * q0 + ce * c0;
  m[7] = se * q1 + ce * c1;
  m[8] = se * q2 + ce * c2;
}

/** Earth rotation angle, radians (IAU 2000 Resolution B1.8). @param ut1 Julian date */
export function earthRotationAngle(ut1: number): number {
  const days = ut1 - J2000_JD;
  const turns = (days % 1) + 0.779057273264 + 0.00273781191135448 * days;
  return TURN * (turns - Math.floor(turns));
}
