import { atan2Deg, cosDeg, sinDeg, wrap360 } from './trig.js';

/** Computed altitude in degrees (−90 to 90) and true azimuth in degrees (0 included to 360 excluded). */
export interface AltAz {
  /** Degrees, −90 to 90. */
  altDeg: number;
  /** True, degrees, 0 included to 360 excluded. */
  azDeg: number;
}

/**
 * Altitude and azimuth of a body by direct computation, from the three components of its direction (up, north,
 * east), so that neither a body near the zenith nor one on the horizon costs digits.
 *
 * At the exact zenith or nadir the azimuth does not exist and 0 is returned. At a pole north is taken along the
 * meridian of the given longitude.
 * @param latDeg latitude, north positive, −90 to 90
 * @param lonDeg longitude, east positive, any turn
 * @param ghaDeg Greenwich hour angle, west of Greenwich, any turn
 * @param decDeg declination, north positive, −90 to 90
 * @param out written into and returned when given, so that a batch allocates nothing
 * Source: spherical triangle pole, zenith, body; the Nautical Almanac's direct computation (formulas na-hc-z).
 */
export function altitudeKernel(
  latDeg: number,
  lonDeg: number,
  ghaDeg: number,
  decDeg: number,
  out: AltAz = { altDeg: 0, azDeg: 0 },
): AltAz {
  const lhaDeg = ghaDeg + lonDeg;
  const sinLat = sinDeg(latDeg);
  const cosLat = cosDeg(latDeg);
  const sinDec = sinDeg(decDeg);
  const cosDec = cosDeg(decDeg);
  const c = cosDec * cosDeg(lhaDeg);
  const up = sinDec * sinLat + c * cosLat;
  const north = sinDec * cosLat - c * sinLat;
  const east = -cosDec * sinDeg(lhaDeg);
  const flat = Math.sqrt(north * north + east * east);
  out.altDeg = atan2Deg(up, flat);
  out.azDeg = flat < 1e-13 ? 0 : wrap360(atan2Deg(east, north));
  return out;
}

/**
 * How fast the altitude changes with time at a place at rest, in minutes of arc per second of time, rising
 * positive: −rate × cos Lat × sin Zn, the body's own motion in declination left out. Source: differential of the altitude triangle.
 * @param azDeg true azimuth
 * @param ghaRateArcminPerS change of GHA, 15.041′ a minute unless told
 */
export function altitudeRateKernel(latDeg: number, azDeg: number, ghaRateArcminPerS = 15.041 / 60) {
  return ghaRateArcminPerS * cosDeg(latDeg) * sinDeg(azDeg);
}
