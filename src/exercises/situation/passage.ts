import { rhumbBetween, rhumbDestination } from '../../core/line/index.js';
import type { Random } from '../../core/fix/index.js';
import { Angle, Instant, nauticalMiles, Position, position } from '../../core/units/index.js';

/** The passage on which exercises take place: Walvis Bay, St Helena, Ascension, as an invented yawl sails it. */
const LEGS = Object.freeze([
  Object.freeze([position('22°50′ S', '14°00′ E'), position('16°10′ S', '005°20′ W')] as const),
  Object.freeze([position('15°50′ S', '006°00′ W'), position('8°10′ S', '014°10′ W')] as const),
]);
/** The year of the exercises: its slice of the ephemeris goes with a published page. */
export const EXERCISE_YEAR = 2027;
const DAYS = 365;
const OFF_TRACK_NM = 25;

/** Where and on which day an exercise is set, and which way the vessel sails. */
export interface Setting {
  readonly position: Position;
  /** 0h UTC of the day. */
  readonly day: Instant;
  readonly course: Angle;
}

/** A place on or near the passage and a day of the year, at random. */
export function drawSetting(random: Random): Setting {
  const [from, to] = LEGS[random.below(LEGS.length)] ?? LEGS[0]!;
  const { course, distance } = rhumbBetween(from, to);
  const along = rhumbDestination(from, course, distance.times(random.uniform()));
  const off = nauticalMiles(OFF_TRACK_NM * (2 * random.uniform() - 1));
  const place = rhumbDestination(along, course.plus(Angle.degrees(90)), off);
  const start = Instant.utcParts(EXERCISE_YEAR, 1, 1);
  // The last days are left out, so that a sight taken for the next day's stays in the year.
  const day = Instant.fromEpochMs(start.epochMs + random.below(DAYS - 3) * 86_400_000);
  return { position: place, day, course: Angle.degrees(Math.round(course.degrees)) };
}

/** A dead-reckoning position near the true one, to the whole minute, up to `errorNm` miles out. */
export function drawDr(random: Random, truth: Position, errorNm: number): Position {
  const bearing = Angle.degrees(360 * random.uniform());
  const out = rhumbDestination(
    truth,
    bearing,
    nauticalMiles(errorNm * (0.3 + 0.7 * random.uniform())),
  );
  const minute = (degrees: number) => Math.round(degrees * 60) / 60;
  return Position.degrees(minute(out.latDeg), minute(out.lonDeg));
}
