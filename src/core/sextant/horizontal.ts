const RAD = Math.PI / 180;

/** A direction at the observer, degrees: altitude, azimuth from true north through east, parallactic angle. */
export interface Horizontal {
  /** −90 to 90. */
  altDeg: number;
  /** 0 to 360 from north through east. */
  azimuthDeg: number;
  /** Angle at the body from the zenith to the celestial pole, positive west of the meridian (LHA under 180°). */
  parallacticDeg: number;
}

/**
 * Altitude (±90), azimuth (0 to 360 from north through east) and parallactic angle (±180, west of the meridian positive), degrees.
 * At zenith or nadir the azimuth does not exist and what comes out means nothing.
 * @param latDeg north positive
 * @param lonDeg east positive, any turn
 * @param ghaDeg west of Greenwich, any turn
 * @param decDeg north positive
 */
export function horizontalKernel(
  latDeg: number,
  lonDeg: number,
  ghaDeg: number,
  decDeg: number,
): Horizontal {
  const lha = (ghaDeg + lonDeg) * RAD;
  const [sinLat, cosLat] = [Math.sin(latDeg * RAD), Math.cos(latDeg * RAD)];
  const [sinDec, cosDec] = [Math.sin(decDeg * RAD), Math.cos(decDeg * RAD)];
  const [sinT, cosT] = [Math.sin(lha), Math.cos(lha)];
  const north = sinDec * cosLat - cosDec * sinLat * cosT;
  const east = -cosDec * sinT;
  const up = sinDec * sinLat + cosDec * cosLat * cosT;
  return {
    altDeg: Math.atan2(up, Math.hypot(north, east)) / RAD,
    azimuthDeg: (Math.atan2(east, north) / RAD + 360) % 360,
    parallacticDeg: Math.atan2(cosLat * sinT, sinLat * cosDec - cosLat * sinDec * cosT) / RAD,
  };
}
