/** How a sextant with a micrometer drum stands at a reading; the drawing and the trainer both start here. */
export interface DrumPose {
  /** What the instrument shows, degrees; off the arc negative. */
  readonly readingDeg: number;
  /** How far the index arm is turned from zero: half the reading, since a mirror turned once turns the ray twice. */
  readonly armDeg: number;
  /** What the drum's own index shows, 0 to under 60 minutes; off the arc it counts down from 60. */
  readonly drumMinutes: number;
  /** The degree line that the arc's index has last passed, counted upward, so that it is −1 just off the arc. */
  readonly degreeBelow: number;
  /** The vernier line that stands in line with a line of the drum, 0 to 9: tenths of a minute. */
  readonly vernierLine: number;
}

/** Readings that the drawn arc can show, degrees. */
export const ARC_LEAST_DEG = -5;
export const ARC_MOST_DEG = 125;
/** Lines of the vernier beside the drum; ten of its spaces take up nine of the drum's. */
export const VERNIER_LINES = 10;
/** Spaces of the vernier in minutes of the drum. */
export const VERNIER_SPACE = 0.9;

/**
 * The pose at a reading. A drum line m stands at m − v minutes from the drum's index, v being what the drum shows; the
 * vernier's line k at 0.9 k: they meet where v has k tenths over a whole minute.
 * @param readingDeg −5 to 125; rounded to a tenth of a minute, the finest that such a vernier shows
 */
export function drumPose(readingDeg: number): DrumPose {
  const tenths = Math.round(readingDeg * 600);
  const degreeBelow = Math.floor(tenths / 600);
  const drumTenths = tenths - degreeBelow * 600;
  return {
    readingDeg: tenths / 600,
    armDeg: tenths / 1200,
    drumMinutes: drumTenths / 10,
    degreeBelow,
    vernierLine: drumTenths % 10,
  };
}

/** Degrees of the arc, whole minutes of the drum and tenths of the vernier as the eye takes them down. */
export function eyeFigures(pose: DrumPose): {
  arcDeg: number;
  drumMinutes: number;
  vernierMinutes: number;
  offTheArc: boolean;
} {
  const offTheArc = pose.readingDeg < 0;
  const tenths = Math.round(Math.abs(pose.readingDeg) * 600);
  return {
    arcDeg: Math.floor(tenths / 600),
    drumMinutes: Math.floor(Math.round(pose.drumMinutes * 10) / 10),
    vernierMinutes: pose.vernierLine / 10,
    offTheArc,
  };
}
