import { Angle } from '../units/angle.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Position } from '../units/position.js';
import { altitudeKernel } from './altitude-kernel.js';

/** Computed altitude Hc (−90° to 90°) and true azimuth Zn (0° included to 360°). */
export interface ComputedAltitude {
  readonly altitude: Angle;
  readonly azimuth: Angle;
  /** False at the exact zenith or nadir, where no azimuth exists and `azimuth` is 0°. */
  readonly azimuthDefined: boolean;
}

/**
 * Altitude and azimuth that a body has at a position.
 * @param position where it is computed for; geographic latitude serves as astronomical latitude
 * @param gha Greenwich hour angle, westward @param declination north positive, within ±90°
 * @throws OutOfRangeError when the declination exceeds 90°
 * Source: the Nautical Almanac's direct computation, evaluated from the direction's components.
 */
export function computedAltitude(
  position: Position,
  gha: Angle,
  declination: Angle,
): ComputedAltitude {
  checkDeclination(declination);
  const { altDeg, azDeg } = altitudeKernel(
    position.latDeg,
    position.lonDeg,
    gha.degrees,
    declination.degrees,
  );
  return Object.freeze({
    altitude: Angle.degrees(altDeg),
    azimuth: Angle.degrees(azDeg),
    azimuthDefined: Math.abs(altDeg) < 90 - 1e-9,
  });
}

/**
 * Local hour angle, 0° to 360° westward: GHA plus east longitude.
 * @param gha westward, any turn
 */
export function localHourAngle(position: Position, gha: Angle): Angle {
  return gha.plus(position.longitude).normalized();
}

/** Refuses a declination that cannot be. @throws OutOfRangeError over 90° either way */
export function checkDeclination(declination: Angle): void {
  if (Math.abs(declination.degrees) > 90)
    throw new OutOfRangeError(
      `a declination cannot exceed 90°, and this is ${declination.toString()}; is it the GHA?`,
    );
}
