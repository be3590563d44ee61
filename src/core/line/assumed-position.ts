import { Angle } from '../units/angle.js';
import { Position } from '../units/position.js';

/** A position chosen so that tables can be entered with whole degrees. */
export interface AssumedPosition {
  readonly position: Position;
  /** Local hour angle there: a whole number of degrees, 0 to 359. */
  readonly lha: Angle;
}

/**
 * The position for whole-degree tables nearest to the DR: latitude to the whole degree, longitude such that the local
 * hour angle is a whole degree, each within 30′ of the DR. A half goes away from zero in latitude.
 * Source: rule of the inspection tables as printed in NAVEDTRA 14220, ch. 9 (assumed longitude within 30′ of the DR).
 * @param gha Greenwich hour angle of the body, westward
 */
export function assumedPosition(dr: Position, gha: Angle): AssumedPosition {
  const lat = Math.sign(dr.latDeg) * Math.round(Math.abs(dr.latDeg));
  const lha = Math.round(gha.degrees + dr.lonDeg);
  return {
    position: Position.degrees(lat, lha - gha.degrees),
    lha: Angle.degrees(lha).normalized(),
  };
}
