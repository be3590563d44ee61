import { acosDeg, cosDeg, sinDeg } from '../line/trig.js';

/**
 * Clears a lunar distance of parallax and refraction: from the apparent distance and altitudes of the centres to the distance
 * as from the Earth's centre. All degrees.
 * cos Z = (cos d − sin m sin s)/(cos m cos s) with apparent altitudes, cos D = sin M sin S + cos M cos S cos Z with true
 * ones. The Moon's parallax on the flattened Earth also turns her azimuth by up to 0.2′, which altitudes do not show.
 * @param azimuthChangeDeg change of the angle Z from topocentric to geocentric, 0 for the method by altitudes alone
 * Source: the rigorous spherical method; J.-C. de Borda's triangles.
 */
export function clearedDistance(
  distanceDeg: number,
  moonApparentDeg: number,
  bodyApparentDeg: number,
  moonTrueDeg: number,
  bodyTrueDeg: number,
  azimuthChangeDeg = 0,
): number {
  const cosZ =
    (cosDeg(distanceDeg) - sinDeg(moonApparentDeg) * sinDeg(bodyApparentDeg)) /
    (cosDeg(moonApparentDeg) * cosDeg(bodyApparentDeg));
  const z = acosDeg(cosZ) + azimuthChangeDeg;
  return acosDeg(
    sinDeg(moonTrueDeg) * sinDeg(bodyTrueDeg) +
      cosDeg(moonTrueDeg) * cosDeg(bodyTrueDeg) * cosDeg(z),
  );
}

/** Angle between two directions given by GHA and declination, 0 to 180; good near 0° and 180° too. All degrees. */
export function separation(gha1: number, dec1: number, gha2: number, dec2: number): number {
  const d = gha2 - gha1;
  const x = cosDeg(dec2) * sinDeg(d);
  const y = cosDeg(dec1) * sinDeg(dec2) - sinDeg(dec1) * cosDeg(dec2) * cosDeg(d);
  const z = sinDeg(dec1) * sinDeg(dec2) + cosDeg(dec1) * cosDeg(dec2) * cosDeg(d);
  return (Math.atan2(Math.hypot(x, y), z) * 180) / Math.PI;
}
