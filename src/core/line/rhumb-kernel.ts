import { OutOfRangeError } from '../units/errors.js';
import { degrees, radians, wrap180, wrap360 } from './trig.js';
import {
  isometricLatitude,
  latitudeFromArc,
  meridianArcM,
  primeVerticalRadiusM,
  QUARTER_MERIDIAN_M,
} from './wgs84.js';

/** Metres of meridian per radian of isometric latitude between two latitudes; the radius of the parallel where they meet. */
function metresPerIsometric(
  lat1: number,
  lat2: number,
  deltaIso: number,
  deltaArc: number,
): number {
  // Below this the quotient of differences loses more digits (1e-16/1e-5) than the midpoint value does (1e-5²).
  if (Math.abs(deltaIso) > 1e-5) return deltaArc / deltaIso;
  const mid = (lat1 + lat2) / 2;
  return primeVerticalRadiusM(mid) * Math.cos(mid);
}

/**
 * Where a rhumb line on WGS 84 leads.
 * @param latDeg north positive; @param lonDeg east positive; @param courseDeg true; @param distanceM metres, may be negative
 * @returns latitude and longitude in degrees, longitude in (−180, 180]
 * @throws OutOfRangeError when the line would reach a pole
 * Source: C. F. F. Karney, *The area of rhumb polygons*, Stud. Geophys. Geod. 68 (2024), sec. 2 (course constant on the
 * isometric latitude, distance on the rectifying latitude); G. G. Bennett, J. Navigation 49(1), 1996.
 */
export function rhumbDestinationKernel(
  latDeg: number,
  lonDeg: number,
  courseDeg: number,
  distanceM: number,
): { latDeg: number; lonDeg: number } {
  const lat1 = radians(latDeg);
  const course = radians(courseDeg);
  const northM = distanceM * Math.cos(course);
  const arc2 = meridianArcM(lat1) + northM;
  if (Math.abs(arc2) > QUARTER_MERIDIAN_M * (1 - 1e-12))
    throw new OutOfRangeError(
      `a rhumb line of ${(distanceM / 1852).toFixed(1)} nm on course ${courseDeg.toFixed(1)}° from latitude ${latDeg.toFixed(2)}° ` +
        `reaches the pole; stop short of it`,
    );
  const lat2 = latitudeFromArc(arc2);
  const deltaIso = isometricLatitude(lat2) - isometricLatitude(lat1);
  const q = metresPerIsometric(lat1, lat2, deltaIso, northM);
  const deltaLon = (distanceM * Math.sin(course)) / q;
  return { latDeg: degrees(lat2), lonDeg: wrap180(lonDeg + degrees(deltaLon)) };
}

/**
 * Course and distance of the shorter rhumb line between two places on WGS 84 (east when both ways are equal). Degrees, north and east positive.
 * @returns course 0–360, distance in metres. Source: as for the destination.
 * @throws OutOfRangeError when either place is a pole
 */
export function rhumbBetweenKernel(
  lat1Deg: number,
  lon1Deg: number,
  lat2Deg: number,
  lon2Deg: number,
): { courseDeg: number; distanceM: number } {
  for (const lat of [lat1Deg, lat2Deg])
    if (Math.abs(lat) >= 90)
      throw new OutOfRangeError('a rhumb line to or from a pole has no single course');
  const lat1 = radians(lat1Deg);
  const lat2 = radians(lat2Deg);
  const deltaIso = isometricLatitude(lat2) - isometricLatitude(lat1);
  const deltaLon = radians(wrap180(lon2Deg - lon1Deg));
  const q = metresPerIsometric(lat1, lat2, deltaIso, meridianArcM(lat2) - meridianArcM(lat1));
  const distanceM = Math.hypot(deltaLon, deltaIso) * q;
  const courseDeg = distanceM === 0 ? 0 : wrap360(degrees(Math.atan2(deltaLon, deltaIso)));
  return { courseDeg, distanceM };
}
