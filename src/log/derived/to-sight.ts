import { sight, type Sight, type SightFields } from '../../core/sextant/index.js';
import {
  Angle,
  Instant,
  Length,
  Position,
  Pressure,
  Speed,
  Temperature,
} from '../../core/units/index.js';
import { logColumn } from '../columns/log-columns.js';
import { textOf } from '../csv/write-csv.js';
import type { ReadingRow } from '../table/reading-row.js';

/**
 * The sight that these readings make: one body, limb, observer and sextant. What differs between the rows in other
 * columns is taken from the first. Texts as written go along, so that the working shows what was read.
 */
export function toSight(rows: readonly ReadingRow[]): Sight {
  const first = rows[0];
  if (!first) throw new RangeError('a sight needs at least one reading');
  const text = (key: string, row: ReadingRow = first) =>
    textOf(logColumn(key), row as unknown as Record<string, never>) ?? undefined;
  const number = <T>(key: keyof ReadingRow, make: (value: number, text?: string) => T) => {
    const value = first[key];
    return typeof value === 'number' ? make(value, text(key)) : undefined;
  };
  const horizon = first.horizon ?? undefined;
  const fields: Optional<SightFields> & Pick<SightFields, 'body' | 'reading' | 'time'> = {
    body: first.body,
    limb: first.limb,
    reading: rows.map((r) => Angle.degrees(r.readingDeg, text('readingDeg', r))),
    ...times(rows),
    horizon,
    waterlineDistance: horizon === 'short' ? number('horizonDistanceM', Length.metres) : undefined,
    eyeHeight: number('eyeHeightM', Length.metres),
    indexError: number('indexErrorArcmin', (v, t) => Angle.degrees(v / 60, t)),
    indexCheckKey: indexCheckKey(first),
    temperature: number('temperatureC', Temperature.celsius),
    pressure: number('pressureHpa', Pressure.hectopascals),
    dr: first.latDeg === null || first.lonDeg === null ? undefined : place(first, text),
    course: number('courseDeg', Angle.degrees),
    speed: number('speedKn', Speed.knots),
    observer: first.observer ?? undefined,
    instrument: first.instrument ?? undefined,
    session: first.round,
    sigma: number('statedSigmaArcmin', (v) => Angle.arcminutes(v)),
    remarks: first.remarks ?? undefined,
  };
  const given = Object.entries(fields).filter(([, value]) => value !== undefined);
  return sight(Object.fromEntries(given) as unknown as SightFields);
}

type Optional<T> = { [K in keyof T]?: T[K] | undefined };

/** Sights of one day with one sextant and one noted index error rest on one check. */
function indexCheckKey(row: ReadingRow): string {
  const day = new Date(row.utcMs).toISOString().slice(0, 10);
  return `${day} ${row.indexErrorText ?? row.indexErrorArcmin ?? 'not checked'}`;
}

function place(row: ReadingRow, text: (key: string) => string | undefined): Position {
  return Position.of(
    Angle.degrees(row.latDeg as number, text('latDeg')),
    Angle.degrees(row.lonDeg as number, text('lonDeg')),
  );
}

/** Times as the watch showed them where UTC came from the watch, else UTC. */
function times(rows: readonly ReadingRow[]): Pick<SightFields, 'time' | 'watch'> {
  const first = rows[0] as ReadingRow;
  const byWatch = rows.every(
    (r) =>
      r.watchMs !== null &&
      r.watchErrorS === first.watchErrorS &&
      r.watchErrorS !== null &&
      Math.abs(r.watchMs - r.watchErrorS * 1000 - r.utcMs) < 0.5,
  );
  if (byWatch && first.utcText === null)
    return {
      time: rows.map((r) => Instant.fromEpochMs(r.watchMs as number)),
      watch: { error: first.watchErrorText ?? `${first.watchErrorS ?? 0} s fast` },
    };
  return { time: rows.map((r) => instantOf(r)) };
}

/** The instant of a reading, with the text as written where that text is a time in UTC. */
export function instantOf(row: ReadingRow): Instant {
  if (row.utcText !== null) {
    const read = Instant.utc(row.utcText);
    if (Math.abs(read.epochMs - row.utcMs) < 0.5) return read;
  }
  return Instant.fromEpochMs(row.utcMs);
}
