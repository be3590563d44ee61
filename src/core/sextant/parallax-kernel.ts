const RAD = Math.PI / 180;
/** WGS 84. */
const FLATTENING = 1 / 298.257223563;
const ECCENTRICITY2 = FLATTENING * (2 - FLATTENING);

/** asin for arguments that rounding may carry past ±1; NaN stays NaN. */
export function asinClamped(x: number): number {
  return Math.asin(Math.min(1, Math.max(-1, x)));
}

/**
 * Parallax in altitude on a round Earth.
 * @param altDeg altitude of the centre seen from the surface, freed from refraction, degrees
 * @param hpArcmin horizontal parallax, minutes of arc
 * @returns minutes of arc to be added: sin p = sin HP cos h. Exact for a sphere.
 */
export function parallaxSphereKernel(altDeg: number, hpArcmin: number): number {
  return asinClamped(Math.sin((hpArcmin / 60) * RAD) * Math.cos(altDeg * RAD)) * (60 / RAD);
}

/**
 * What the Earth's figure adds to the parallax in altitude of a round Earth.
 * @param altDeg as above; @param hpArcmin equatorial horizontal parallax, minutes of arc
 * @param latDeg latitude of the observer, north positive; @param azimuthDeg azimuth of the body from true north
 * @returns minutes of arc to be added, within ±0.4′ for the Moon. Exact for an observer on the WGS 84 ellipsoid,
 * altitudes counted from the plane square to the ellipsoid's normal.
 * First term, as the almanac gives it: OB = 0.0032° (sin 2φ cos Z sin H − sin²φ cos H)
 * (Nautical Almanac, sight reduction procedures).
 */
export function earthFigureKernel(
  altDeg: number,
  hpArcmin: number,
  latDeg: number,
  azimuthDeg: number,
): number {
  const [sinH, cosH] = [Math.sin(altDeg * RAD), Math.cos(altDeg * RAD)];
  const [sinLat, cosLat] = [Math.sin(latDeg * RAD), Math.cos(latDeg * RAD)];
  const distance = 1 / Math.sin((hpArcmin / 60) * RAD);
  // The observer in the frame of his own horizon, in equatorial radii: up and north.
  const n = 1 / Math.sqrt(1 - ECCENTRICITY2 * sinLat * sinLat);
  const up = n * (1 - ECCENTRICITY2 * sinLat * sinLat);
  const north = -n * ECCENTRICITY2 * sinLat * cosLat;
  const along = up * sinH + north * cosH * Math.cos(azimuthDeg * RAD);
  const range = -along + Math.sqrt(along * along + distance * distance - up * up - north * north);
  const geocentric = asinClamped((range * sinH + up) / distance) / RAD;
  return (geocentric - altDeg) * 60 - parallaxSphereKernel(altDeg, hpArcmin);
}

/**
 * Augmentation: how much larger the body looks because the observer is nearer to it than the Earth's centre.
 * @param altDeg altitude of the centre seen from the surface, degrees
 * @param sdArcmin geocentric semi-diameter; @param hpArcmin horizontal parallax, minutes of arc, more than 0
 * @returns minutes of arc to be added to the semi-diameter; 0 at the horizon to 0.3′ in the zenith for the Moon.
 * Exact for a round Earth.
 */
export function augmentationKernel(altDeg: number, sdArcmin: number, hpArcmin: number): number {
  if (!(hpArcmin > 0)) return hpArcmin === 0 ? 0 : NaN;
  const distance = 1 / Math.sin((hpArcmin / 60) * RAD);
  const [sinH, cosH] = [Math.sin(altDeg * RAD), Math.cos(altDeg * RAD)];
  const range = Math.sqrt(distance * distance - cosH * cosH) - sinH;
  const sinSd = (Math.sin((sdArcmin / 60) * RAD) * distance) / range;
  return asinClamped(sinSd) * (60 / RAD) - sdArcmin;
}
