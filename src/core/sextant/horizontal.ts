const RAD = Math.PI / 180;

/** A direction at the observer, degrees: altitude, azimuth from true north through east, parallactic angle. */
export interface Horizontal {
  altDeg: number;
  azimuthDeg: number;
  /** Angle at the body from the zenith to the celestial pole, positive west of the meridian (LHA under 180°). */
  parallacticDeg: number;
}

/** Altitude, azimuth (0–360) and parallactic angle; all angles in degrees, north and east positive. */
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
