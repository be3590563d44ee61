import { altitudeKernel } from './altitude-kernel.js';
import { asinDeg, radians } from './trig.js';
import { primeVerticalRadiusM, WGS84_F } from './wgs84.js';
import type { BodyName } from '../sky/body-names.js';
import { newPlaceNumbers, placeKernel } from '../sky/place-kernel.js';

/** Direction and size of a body as seen from a place at sea level. */
export interface Topocentric {
  /** Altitude of the centre without refraction, degrees. */
  altDeg: number;
  /** True azimuth, degrees, 0 included to 360 excluded. */
  azDeg: number;
  /** Semi-diameter, minutes of arc; 0 for stars. */
  sdArcmin: number;
  /** Local hour angle, 0–360. */
  lhaDeg: number;
}

const E2 = WGS84_F * (2 - WGS84_F);
const place = newPlaceNumbers();
const seen = { altDeg: 0, azDeg: 0 };

/**
 * Topocentric altitude on WGS 84 at sea level, refraction left out: the geocentric direction less the observer's own place. Degrees.
 * @param latDeg north positive
 * @param lonDeg east positive
 * @param tt Julian date TT
 * @param ut1 Julian date UT1
 * @throws OutOfRangeError outside the years 1600 to 2200, and on NaN
 */
export function topocentric(
  body: BodyName,
  latDeg: number,
  lonDeg: number,
  tt: number,
  ut1: number,
): Topocentric {
  placeKernel(body, tt, ut1, place);
  altitudeKernel(latDeg, lonDeg, place.ghaDeg, place.decDeg, seen);
  const lha = place.ghaDeg + lonDeg;
  const lhaDeg = lha - 360 * Math.floor(lha / 360);
  if (!Number.isFinite(place.distanceKm)) return { ...seen, sdArcmin: 0, lhaDeg };
  const [alt, az, lat] = [radians(seen.altDeg), radians(seen.azDeg), radians(latDeg)];
  const n = primeVerticalRadiusM(lat) / 1000;
  const [axis, polar] = [n * Math.cos(lat), n * (1 - E2) * Math.sin(lat)];
  const d = place.distanceKm;
  const up = d * Math.sin(alt) - (axis * Math.cos(lat) + polar * Math.sin(lat));
  const north = d * Math.cos(alt) * Math.cos(az) - (polar * Math.cos(lat) - axis * Math.sin(lat));
  const east = d * Math.cos(alt) * Math.sin(az);
  const flat = Math.hypot(north, east);
  const distance = Math.hypot(flat, up);
  const azDeg = (Math.atan2(east, north) * 180) / Math.PI;
  return {
    altDeg: (Math.atan2(up, flat) * 180) / Math.PI,
    azDeg: azDeg < 0 ? azDeg + 360 : azDeg,
    sdArcmin: asinDeg((Math.sin(radians(place.sdArcmin / 60)) * d) / distance) * 60,
    lhaDeg,
  };
}
