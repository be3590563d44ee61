import { Angle } from '../units/angle.js';
import { angle } from '../units/angle-text.js';
import { EntryError, OutOfRangeError } from '../units/errors.js';
import { Instant } from '../units/instant.js';
import { Duration } from '../units/scalar.js';
import type { Reading } from './sight.js';
import type { OneOrMore, SightFields } from './sight-fields.js';
import { watchErrorAt, type WatchCheck } from './watch.js';
import { shown } from './shown.js';

/** A sextant's arc: a little off the arc to 150° (a quintant reads to 144°); common practice, no source. */
const LEAST_DEG = -6;
const GREATEST_DEG = 150;
/** Over a longer run the body's path bends too much to be averaged without a look; common practice, no source. */
const LONG_RUN_S = 300;
/** No body climbs by more in a minute, since the Earth turns by 15.04′ in one. */
const MINUTES_CLIMB_ARCMIN = 15.04;

/** Hours and minutes at the end, not minutes and seconds; the log refuses it, a single sight takes it and says so. */
const WITHOUT_SECONDS = /[T\s](\d{2}:\d{2})\s*(?:Z|UTC|UT)?\s*$/i;

const listOf = <T>(value: OneOrMore<T>): readonly T[] =>
  Array.isArray(value) ? (value as readonly T[]) : [value as T];

/** Reads one entry after the other; a mistake in a list of several says which it is in. */
function readEach<T, V>(what: string, list: readonly T[], read: (entry: T) => V): V[] {
  return list.map((entry, i) => {
    try {
      return read(entry);
    } catch (mistake) {
      if (list.length < 2 || !(mistake instanceof EntryError)) throw mistake;
      const { message, text, at = 0 } = mistake;
      const said = message.split('\n')[0] ?? '';
      throw new EntryError(`${what} ${i + 1} of ${list.length}: ${said}`, text, at);
    }
  });
}

/**
 * Readings and their times; the moment of the sight is the mean of the times.
 * @throws EntryError when there is none, or times and readings cannot be paired; OutOfRangeError off the arc.
 */
export function readReadings(
  fields: SightFields,
  watch: WatchCheck | undefined,
  assumptions: string[],
  doubts: string[],
): { readings: readonly Reading[]; instant: Instant } {
  const angles = readEach('Reading', listOf(fields.reading ?? []), readArc);
  const written = listOf(fields.time ?? []);
  const times = readEach('Time', written, (time) => readTime(time, watch));
  for (const time of written) {
    const short = typeof time === 'string' ? WITHOUT_SECONDS.exec(time)?.[1] : undefined;
    if (short)
      assumptions.push(`no seconds were written: ${short}:00 is taken (four seconds are a mile)`);
  }
  const first = times[0];
  if (angles.length === 0)
    throw new EntryError("A sight needs a reading: reading: '41°18.6′'.", '');
  if (!first) throw new EntryError("A sight needs its time: time: '2027-05-11 09:42:17 UTC'.", '');
  if (times.length !== 1 && times.length !== angles.length)
    throw new EntryError(
      `There are ${angles.length} readings and ${times.length} times: give one time for each reading, or one for all.`,
      times.map(String).join(', '),
    );
  if (times.length === 1 && angles.length > 1) {
    assumptions.push('the one time given is taken as the mean time of the readings');
    const minutes = angles.map((a) => a.arcminutes);
    const spanArcmin = Math.max(...minutes) - Math.min(...minutes);
    if (spanArcmin > MINUTES_CLIMB_ARCMIN)
      doubts.push(
        `The readings are ${spanArcmin.toFixed(1)}′ apart and have one time, which must be the mean of theirs: give each its own.`,
      );
  }
  const meanSeconds =
    times.reduce((sum, t) => sum + t.minus(first).seconds, 0) / Math.max(times.length, 1);
  const spanSeconds = Math.max(...times.map((t) => Math.abs(t.minus(first).seconds)));
  if (spanSeconds > LONG_RUN_S)
    doubts.push(
      `The readings span ${Duration.seconds(spanSeconds).toString()}: over five minutes the altitude does not change evenly, and a fit of the run is better than a mean.`,
    );
  const readings = angles.map((reading, i) => {
    const instant = times.length > 1 ? times[i] : undefined;
    return Object.freeze({ angle: reading, ...(instant ? { instant } : {}) });
  });
  return {
    readings: Object.freeze(readings),
    instant: meanSeconds === 0 ? first : first.plus(Duration.seconds(meanSeconds)),
  };
}

function readArc(reading: string | Angle): Angle {
  const value = typeof reading === 'string' ? angle(reading, { kind: 'altitude' }) : reading;
  if (!(value instanceof Angle))
    throw new EntryError("A reading is an angle. Write '41°18.6′'.", shown(reading));
  if (value.degrees > GREATEST_DEG)
    throw new OutOfRangeError(`a reading of ${value} is more than the 150° an arc can show`);
  if (value.degrees < LEAST_DEG)
    throw new OutOfRangeError(
      `a reading of ${value} is farther off the arc than a sextant reads (about 5°)`,
    );
  return value;
}

/** UTC: the time read, less the watch's error at that moment. */
function readTime(time: string | Instant, watch: WatchCheck | undefined): Instant {
  const read = typeof time === 'string' ? Instant.utc(time) : time;
  if (!(read instanceof Instant))
    throw new EntryError("A time is written '2027-05-11 09:42:17 UTC'.", shown(time));
  return watch ? read.plus(watchErrorAt(watch, read).negated()) : read;
}

/** Mean of the readings, degrees. */
export const meanReadingDeg = (readings: readonly Reading[]): number =>
  readings.reduce((sum, r) => sum + r.angle.degrees, 0) / readings.length;
