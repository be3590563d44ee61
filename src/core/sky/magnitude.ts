import { isSolarSystem, type BodyName, type SolarSystemName } from './body-names.js';
import { lightTimeVector, sunGeometry } from './place-kernel.js';
import { starMotion } from './stars.js';

const DEG = 180 / Math.PI;
/** Saturn's north pole, ICRS unit vector (IAU Working Group on Cartographic Coordinates 2015). */
const SATURN_POLE = [0.08547883, 0.07323576, 0.99364475] as const;

/** How bright and how much lit a body looks from the Earth's centre. */
export interface Appearance {
  /** Apparent visual magnitude; absent where the formula does not reach. */
  readonly magnitude?: number;
  /** Lit fraction of the disc, 0 to 1; absent for stars, 1 for the Sun. */
  readonly phase?: number;
  /** Sun-body-Earth angle in degrees; absent for stars and the Sun. */
  readonly phaseAngleDeg?: number;
}

const toSun = new Float64Array(3);
const toBody = new Float64Array(3);

/**
 * Magnitude and phase, from the Earth's centre. Planets: Mallama & Hilton 2018 (Astronomy and Computing 25, 10), Mars without its
 * rotation (0.06 mag); Moon: Allen's law (Astrophysical Quantities, from memory), a few tenths; Sun: −26.74 at 1 AU; stars: the catalogue's V.
 * @param tt Julian date TT
 * @throws OutOfRangeError outside the years 1600 to 2200, and on NaN
 */
export function appearance(body: BodyName, tt: number): Appearance {
  if (!isSolarSystem(body)) {
    const { magnitude } = starMotion(body);
    return magnitude === undefined ? {} : { magnitude };
  }
  const sunDistance = sunGeometry(tt, toSun);
  if (body === 'Sun') return { magnitude: -26.74 + 5 * Math.log10(sunDistance), phase: 1 };
  const delta = lightTimeVector(body, tt, toBody);
  const helio = [0, 1, 2].map((i) => (toBody[i] as number) - (toSun[i] as number));
  const r = Math.hypot(...helio);
  const cosine = dot(helio, toBody) / (r * delta);
  const angle = Math.acos(Math.min(1, Math.max(-1, cosine))) * DEG;
  const base = body === 'Moon' ? moonAtUnit(angle) : planetAtUnit(body, angle, helio);
  const magnitude = base === undefined ? undefined : base + 5 * Math.log10(r * delta);
  return {
    ...(magnitude === undefined ? {} : { magnitude }),
    phase: (1 + cosine) / 2,
    phaseAngleDeg: angle,
  };
}

/** Magnitude at 1 AU from Sun and Earth. @param a phase angle, degrees */
function planetAtUnit(
  body: Exclude<SolarSystemName, 'Sun' | 'Moon'>,
  a: number,
  helio: readonly number[],
): number | undefined {
  if (body === 'Venus')
    return a < 163.7
      ? -4.384 + a * (-1.044e-3 + a * (3.687e-4 + a * (-2.814e-6 + a * 8.938e-9)))
      : 236.05828 + a * (-2.81914 + a * 8.39034e-3);
  if (body === 'Mars')
    return a <= 50
      ? -1.601 + a * (2.267e-2 - a * 1.302e-4)
      : -0.367 + a * (-0.02573 + a * 0.0003445);
  // Seen from the Earth, Jupiter's phase angle stays under 12° and Saturn's under 6.5°.
  if (body === 'Jupiter') return a <= 12 ? -9.395 + a * (-3.7e-4 + a * 6.16e-4) : undefined;
  return saturnAtUnit(a, helio);
}

/** Globe and rings: the ring's tilt to Sun and Earth counts. */
function saturnAtUnit(a: number, helio: readonly number[]): number | undefined {
  const latitude = (v: ArrayLike<number>) =>
    Math.acos(dot(SATURN_POLE, v) / Math.hypot(v[0] as number, v[1] as number, v[2] as number)) *
      DEG -
    90;
  const product = latitude(helio) * latitude(toBody);
  const tilt = product > 0 ? Math.sqrt(product) / DEG : 0;
  if (a > 6.5 || tilt * DEG > 27) return undefined;
  return -8.914 - 1.825 * Math.sin(tilt) + 0.026 * a - 0.378 * Math.sin(tilt) * Math.exp(-2.25 * a);
}

/** The full Moon is −12.74 at its mean distance (0.00257 AU) with the Sun at 1 AU. */
const moonAtUnit = (a: number): number => 0.21 + 0.026 * a + 4e-9 * a ** 4;

const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
  (a[0] as number) * (b[0] as number) +
  (a[1] as number) * (b[1] as number) +
  (a[2] as number) * (b[2] as number);
