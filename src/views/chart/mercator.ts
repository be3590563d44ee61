const DEG = Math.PI / 180;
/** Eccentricity of the WGS 84 ellipsoid (NIMA TR8350.2, 2000, table 3.3: e² = 6.694 379 990 14 × 10⁻³). */
const E = Math.sqrt(6.69437999014e-3);
export const WGS84_A_M = 6378137;

/** Latitudes beyond this have no place on a Mercator chart. */
export const MAX_LATITUDE_DEG = 85;

/**
 * Meridional parts on the WGS 84 ellipsoid: the distance of a parallel from the equator on a Mercator chart, in
 * minutes of longitude.
 * Source: J. P. Snyder, *Map Projections: A Working Manual* (USGS Professional Paper 1395, 1987), equation 7-7.
 * @param latDeg within ±85; beyond, the value at ±85
 */
export function meridionalParts(latDeg: number): number {
  const lat = Math.max(-MAX_LATITUDE_DEG, Math.min(MAX_LATITUDE_DEG, latDeg)) * DEG;
  const s = E * Math.sin(lat);
  return (Math.atanh(Math.sin(lat)) - E * Math.atanh(s)) * (60 / DEG);
}

/** Latitude in degrees of these meridional parts; the inverse of `meridionalParts`, to 10⁻¹⁰ degrees. */
export function latitudeOf(parts: number): number {
  const isometric = (parts / 60) * DEG;
  let sine = Math.tanh(isometric);
  for (let i = 0; i < 8; i++) sine = Math.tanh(isometric + E * Math.atanh(E * sine));
  return Math.asin(sine) / DEG;
}

/** Length of a minute of longitude at a latitude, metres on the WGS 84 ellipsoid. */
export function longitudeMinuteM(latDeg: number): number {
  const s = Math.sin(latDeg * DEG);
  return ((WGS84_A_M * Math.cos(latDeg * DEG)) / Math.sqrt(1 - E * E * s * s)) * (DEG / 60);
}

/** Length of a minute of latitude at a latitude, metres on the WGS 84 ellipsoid. */
export function latitudeMinuteM(latDeg: number): number {
  const s = Math.sin(latDeg * DEG);
  return ((WGS84_A_M * (1 - E * E)) / (1 - E * E * s * s) ** 1.5) * (DEG / 60);
}
