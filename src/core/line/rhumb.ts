import { Angle } from '../units/angle.js';
import { Position } from '../units/position.js';
import { Length } from '../units/scalar.js';
import { rhumbBetweenKernel, rhumbDestinationKernel } from './rhumb-kernel.js';

/**
 * Where a rhumb line on WGS 84 leads from `from`.
 * @param course true course, any turn @param distance along the line; negative goes backwards
 * @throws OutOfRangeError when the line would reach a pole
 * Source: see `rhumbDestinationKernel`; agrees with the printed examples of GeographicLib's RhumbSolve to 0.05″.
 */
export function rhumbDestination(from: Position, course: Angle, distance: Length): Position {
  const to = rhumbDestinationKernel(from.latDeg, from.lonDeg, course.degrees, distance.metres);
  return Position.degrees(to.latDeg, to.lonDeg);
}

/** True course (0–360°) and distance of the shorter rhumb line on WGS 84. @throws OutOfRangeError at a pole */
export function rhumbBetween(from: Position, to: Position): { course: Angle; distance: Length } {
  const { courseDeg, distanceM } = rhumbBetweenKernel(
    from.latDeg,
    from.lonDeg,
    to.latDeg,
    to.lonDeg,
  );
  return { course: Angle.degrees(courseDeg), distance: Length.metres(distanceM) };
}
