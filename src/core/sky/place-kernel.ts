import { finite, OutOfRangeError } from '../units/errors.js';
import { mjdOf } from '../units/instant-text.js';
import { MJD_TO_JD, timeTables } from '../units/time-scales.js';
import { isSolarSystem, type BodyName, type SolarSystemName } from './body-names.js';
import { earthRotationAngle, newFrame, setFrame } from './earth-frame.js';
import { ephemerisVersion, solarSystemAt } from './provide-ephemeris.js';
import { newEarthState, type SolarSystem } from './solar-system.js';
import { starMotion, starVector, type StarMotion } from './stars.js';

/** The astronomical unit, km (IAU 2012 resolution B2). */
export const AU_KM = 149597870.7;
/** Equatorial radius of the Earth, km (WGS 84). */
export const EARTH_RADIUS_KM = 6378.137;
/** Speed of light, AU a day. */
const C = 173.1446326846693;
/** Twice the gravitational radius of the Sun, AU: 2GM/c² (IAU 2009 GM). */
const SUN_SCHWARZSCHILD_AU = 1.97412574336e-8;
const DEG = 180 / Math.PI;
const LIGHT_TIME_STEPS = 4;
const LIGHT_TIME_LIMIT_DAYS = 1e-8;

/**
 * Radii in km for semi-diameters. Sun: 959.63″ at 1 AU (Auwers, the almanacs' value); Moon: 0.2724 of the Earth's
 * (Nautical Almanac); planets: IAU Working Group on Cartographic Coordinates 2015 (from memory).
 */
export const RADIUS_KM: Readonly<Record<SolarSystemName, number>> = {
  Sun: 696000,
  Moon: 1737.4,
  Venus: 6051.8,
  Mars: 3396.2,
  Jupiter: 71492,
  Saturn: 60268,
};

/** A geocentric apparent place of date in plain numbers, filled in place by `placeKernel`. */
export interface PlaceNumbers {
  /** 0 to 360 westward. */
  ghaDeg: number;
  /** North positive. */
  decDeg: number;
  /** Right ascension, 0 to 360 eastward. */
  raDeg: number;
  /** From the Earth now to the body when its light left, in the frame of the solar system; Infinity for stars. */
  distanceKm: number;
  /** Equatorial horizontal parallax; 0 for stars. */
  hpArcmin: number;
  /** Geocentric semi-diameter; 0 for stars. */
  sdArcmin: number;
}
/** Numbers for `placeKernel` to fill, so that many places take no new memory. */
export const newPlaceNumbers = (): PlaceNumbers => ({
  ghaDeg: 0,
  decDeg: 0,
  raDeg: 0,
  distanceKm: Infinity,
  hpArcmin: 0,
  sdArcmin: 0,
});

/** A day more than instants cover, so that differences may reach over the ends. */
const FIRST_JD = mjdOf(timeTables.firstYear, 1, 1) + MJD_TO_JD - 1;
const LAST_JD = mjdOf(timeTables.lastYear, 12, 31) + MJD_TO_JD + 2;

// What depends on the time alone, kept for the next body at the same time. Sidereal time is not kept: UT1 may differ.
const state = newEarthState();
const frame = newFrame();
let system: SolarSystem | undefined;
let stateTt = NaN;
let stateVersion = -1;

/**
 * The solar system, state and frame for that time, computed unless the last call was for the same.
 * @throws OutOfRangeError outside the years 1600 to 2200, and on NaN
 */
function prepare(tt: number): SolarSystem {
  if (system !== undefined && tt === stateTt && stateVersion === ephemerisVersion()) return system;
  if (!(tt >= FIRST_JD && tt <= LAST_JD))
    throw new OutOfRangeError(
      `places are computed for the years ${timeTables.firstYear} to ${timeTables.lastYear}, not for Julian date ${tt}`,
    );
  stateTt = NaN;
  system = solarSystemAt(tt);
  stateVersion = ephemerisVersion();
  system.earthState(tt, state);
  setFrame(frame, tt, state.nutation[0] as number, state.nutation[1] as number);
  stateTt = tt;
  return system;
}

const p = new Float64Array(3);
const q = new Float64Array(3);

/**
 * Geocentric apparent place of date: light time, deflection by the Sun, aberration, precession and nutation.
 * @param tt Julian date TT. @param ut1 Julian date UT1. @param out filled in place and returned
 * @throws OutOfRangeError outside the years 1600 to 2200, and on NaN
 */
export function placeKernel(
  body: BodyName,
  tt: number,
  ut1: number,
  out: PlaceNumbers,
): PlaceNumbers {
  if (!isSolarSystem(body)) return starKernel(starMotion(body), tt, ut1, out);
  const distance = solarDirection(body, tt, prepare(tt));
  const approach = speedToward();
  if (body !== 'Sun' && body !== 'Moon') deflect(distance);
  aberrate();
  toDate(ut1, out);
  out.distanceKm = distance * AU_KM;
  // Parallax and size belong to the distance in the Earth's own frame; the light-time distance is shorter or longer by the
  // way the Earth goes meanwhile, 37 km for the Moon, 0.006′ of its parallax (found by Meeus's example 47.a).
  const geocentricKm = out.distanceKm * (1 + approach);
  out.hpArcmin = Math.asin(EARTH_RADIUS_KM / geocentricKm) * DEG * 60;
  out.sdArcmin = Math.asin(RADIUS_KM[body] / geocentricKm) * DEG * 60;
  return out;
}

/**
 * Geocentric apparent place of date of any star, as `placeKernel` gives those of the list.
 * @param tt Julian date TT
 * @param ut1 Julian date UT1
 * @param out filled in place and returned; distance Infinity, parallax and semi-diameter 0
 * @throws OutOfRangeError outside the years 1600 to 2200, and on NaN
 */
export function starKernel(
  star: StarMotion,
  tt: number,
  ut1: number,
  out: PlaceNumbers,
): PlaceNumbers {
  prepare(tt);
  starDirection(star, tt);
  deflect(Infinity);
  aberrate();
  toDate(ut1, out);
  out.distanceKm = Infinity;
  out.hpArcmin = 0;
  out.sdArcmin = 0;
  return out;
}

/**
 * GHA of Aries in degrees, 0 to 360 westward: apparent sidereal time at Greenwich (IAU 2006 precession, Earth rotation angle).
 * @param tt Julian date TT
 * @param ut1 Julian date UT1
 * @throws OutOfRangeError outside the years 1600 to 2200, and on NaN
 */
export function ghaAriesKernel(tt: number, ut1: number): number {
  prepare(tt);
  return turn((earthRotationAngle(finite(ut1, 'a Julian date (UT1)')) + frame.gastMinusEra) * DEG);
}

/**
 * Distance of the Sun from the Earth, AU, geometric (no light time).
 * @param tt Julian date TT
 * @param toSun filled with the vector from the Earth to the Sun, ICRS, AU; three places
 * @returns the distance
 * @throws OutOfRangeError outside the years 1600 to 2200, and on NaN
 */
export function sunGeometry(tt: number, toSun: Float64Array): number {
  prepare(tt);
  for (let i = 0; i < 3; i++) toSun[i] = (state.sun[i] as number) - (state.earth[i] as number);
  return Math.hypot(toSun[0] as number, toSun[1] as number, toSun[2] as number);
}

/**
 * Where a body was when its light left, seen from the Earth now, geometric otherwise.
 * @param tt Julian date TT
 * @param out filled with the vector from the Earth, ICRS, AU; three places
 * @returns the distance, AU
 * @throws OutOfRangeError outside the years 1600 to 2200, and on NaN
 */
export function lightTimeVector(body: SolarSystemName, tt: number, out: Float64Array): number {
  const distance = solarDirection(body, tt, prepare(tt));
  for (let i = 0; i < 3; i++) out[i] = (p[i] as number) * distance;
  return distance;
}

/**
 * What computes places at that time, as a working cites it.
 * @param tt Julian date TT
 * @throws OutOfRangeError outside the years 1600 to 2200, and on NaN
 */
export const systemLabel = (tt: number): string => prepare(tt).label;

/** Unit vector from the Earth into `p`; returns the distance in AU. */
function solarDirection(body: SolarSystemName, tt: number, from: SolarSystem): number {
  let light = 0;
  let distance = 0;
  for (let step = 0; step < LIGHT_TIME_STEPS; step++) {
    if (body === 'Moon') {
      from.moon(tt - light, p);
      for (let i = 0; i < 3; i++)
        p[i] = (p[i] as number) / AU_KM - (state.earthRate[i] as number) * light;
    } else {
      if (body === 'Sun') p.fill(0);
      else from.planet(body, tt - light, p);
      for (let i = 0; i < 3; i++)
        p[i] =
          (p[i] as number) +
          (state.sun[i] as number) -
          (state.sunRate[i] as number) * light -
          (state.earth[i] as number);
    }
    distance = Math.hypot(p[0] as number, p[1] as number, p[2] as number);
    const next = distance / C;
    if (Math.abs(next - light) < LIGHT_TIME_LIMIT_DAYS) break;
    light = next;
  }
  for (let i = 0; i < 3; i++) p[i] = (p[i] as number) / distance;
  return distance;
}

function starDirection(star: StarMotion, tt: number): void {
  starVector(star, tt, p);
  for (let i = 0; i < 3; i++)
    p[i] = (p[i] as number) - star.parallaxRad * (state.earth[i] as number);
  const r = Math.hypot(p[0] as number, p[1] as number, p[2] as number);
  for (let i = 0; i < 3; i++) p[i] = (p[i] as number) / r;
}

/**
 * Bending of light by the Sun, first order (Explanatory Supplement 2013, sec. 7.2.4; limit near the Sun as in ERFA `ldsun`).
 * @param distance of the body, AU; Infinity for a star
 */
function deflect(distance: number): void {
  let [ex, ey, ez] = [0, 1, 2].map(
    (i) => (state.earth[i] as number) - (state.sun[i] as number),
  ) as [number, number, number];
  const [x, y, z] = [p[0] as number, p[1] as number, p[2] as number];
  let [qx, qy, qz] = [x, y, z];
  if (distance !== Infinity) {
    [qx, qy, qz] = [x * distance + ex, y * distance + ey, z * distance + ez];
    const h = Math.hypot(qx, qy, qz);
    [qx, qy, qz] = [qx / h, qy / h, qz / h];
  }
  const e = Math.hypot(ex, ey, ez);
  [ex, ey, ez] = [ex / e, ey / e, ez / e];
  const pq = x * qx + y * qy + z * qz;
  const pe = x * ex + y * ey + z * ez;
  const qe = qx * ex + qy * ey + qz * ez;
  const w = SUN_SCHWARZSCHILD_AU / e / Math.max(1 + qe, 1e-6 / Math.max(e * e, 1));
  p[0] = x + w * (pq * ex - pe * qx);
  p[1] = y + w * (pq * ey - pe * qy);
  p[2] = z + w * (pq * ez - pe * qz);
}

/** Speed of the Earth toward `p`, in units of the speed of light. */
function speedToward(): number {
  const v = state.earthRate;
  return (
    ((p[0] as number) * (v[0] as number) +
      (p[1] as number) * (v[1] as number) +
      (p[2] as number) * (v[2] as number)) /
    C
  );
}

/** Aberration, relativistic (Explanatory Supplement 2013, sec. 7.2.3). Leaves a vector of unit length to 10⁻⁸. */
function aberrate(): void {
  const v = state.earthRate;
  const [vx, vy, vz] = [(v[0] as number) / C, (v[1] as number) / C, (v[2] as number) / C];
  const root = Math.sqrt(1 - vx * vx - vy * vy - vz * vz);
  const pv = (p[0] as number) * vx + (p[1] as number) * vy + (p[2] as number) * vz;
  const f = 1 + pv / (1 + root);
  const g = 1 / (1 + pv);
  p[0] = (root * (p[0] as number) + f * vx) * g;
  p[1] = (root * (p[1] as number) + f * vy) * g;
  p[2] = (root * (p[2] as number) + f * vz) * g;
}

/** Rotates `p` to the equator and equinox of date and takes hour angle and declination. */
function toDate(ut1: number, out: PlaceNumbers): void {
  const m = frame.matrix;
  const [x, y, z] = [p[0] as number, p[1] as number, p[2] as number];
  for (let i = 0; i < 3; i++)
    q[i] = (m[3 * i] as number) * x + (m[3 * i + 1] as number) * y + (m[3 * i + 2] as number) * z;
  const [a, b, c] = [q[0] as number, q[1] as number, q[2] as number];
  const ra = Math.atan2(b, a);
  out.raDeg = turn(ra * DEG);
  out.decDeg = Math.atan2(c, Math.sqrt(a * a + b * b)) * DEG;
  out.ghaDeg = turn(
    (earthRotationAngle(finite(ut1, 'a Julian date (UT1)')) + frame.gastMinusEra - ra) * DEG,
  );
}

const turn = (degrees: number): number => {
  const wrapped = degrees - 360 * Math.floor(degrees / 360);
  return wrapped >= 360 ? 0 : wrapped;
};
