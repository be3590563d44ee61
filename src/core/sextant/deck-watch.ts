import { EntryError } from '../units/errors.js';
import { Instant } from '../units/instant.js';
import { Duration } from '../units/scalar.js';
import { Working, type Step } from '../working/working.js';
import { watchCheck, watchErrorAt, type WatchCheck } from './watch.js';

/** A time read from a deck watch, with what is known of the watch. */
export interface DeckWatchFields {
  /** UTC date of the sight, `2027-05-11`; of the zone if `zone` is given. */
  readonly date: string;
  /** What the watch showed, `09:42:20`; up to `12:59:59` if `dialHours` is 12. */
  readonly reading: string;
  /** `3 s slow`, `1 m 12 s fast`, `correct`; as found at `checked`. */
  readonly error: string;
  /** In a day: `0.4 s gaining`; needs `checked`. */
  readonly rate?: string;
  /** When the error was found, UTC. */
  readonly checked?: string;
  /** Hours to add to the watch's zone time to get UTC, west +; 0 (the watch keeps UTC) unless told. */
  readonly zone?: number;
  /** 12 when the dial does not tell forenoon from afternoon; then `near` decides. 24 unless told. */
  readonly dialHours?: 12 | 24;
  /** A time known within 6 hours, UTC, for a 12-hour dial. */
  readonly near?: string;
}

/**
 * UTC from a deck watch: the reading, less its error (fast +) brought up to date by the daily rate.
 * Source: common practice, no source.
 * @returns a working whose value is the instant; its cautions say when a rate is carried far
 * @throws EntryError when a figure is missing or impossible
 */
export function deckWatch(fields: DeckWatchFields): Working<Instant> {
  const shown = reading(fields);
  const watch = watchCheck(
    known({ error: fields.error, rate: fields.rate, checked: fields.checked }),
  );
  const zone = fields.zone ?? 0;
  const inUtc = zone === 0 ? shown : shown.plus(Duration.hours(zone));
  const errorAtCheck = watch.error;
  const nearly = inUtc.plus(errorAtCheck.negated());
  const instant = roundedToTenth(inUtc.plus(watchErrorAt(watch, nearly).negated()));
  const steps: [...Step[], Step<Instant>] = [entryStep(fields, shown)];
  if (zone !== 0) steps.push(zoneStep(zone, inUtc));
  const hasRate = watch.dailyRate.seconds !== 0;
  steps.push(errorStep(fields, watch, hasRate ? nearly : instant));
  if (hasRate) steps.push(rateStep(fields, watch, nearly, instant));
  return new Working<Instant>('UTC from the deck watch', steps);
}

/** The fields that are given: absent ones left out. */
function known<T extends Record<string, string | undefined>>(
  fields: T,
): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(fields).filter(([, v]) => v !== undefined)) as never;
}

const FAR_DAYS = 30;
const tenth = (n: number) => n.toFixed(1).replace('-', '−');

function entryStep(fields: DeckWatchFields, shown: Instant): Step<Instant> {
  return {
    rule: 'watch-reading',
    title: 'Watch reading',
    kind: 'entry',
    formula: { latex: 'W', plain: 'W' },
    figures: `${fields.date} ${fields.reading}`,
    inputs: [
      {
        name: 'watch reading',
        symbol: 'W',
        value: fields.reading,
        text: fields.reading,
        origin: 'reading',
      },
    ],
    result: shown,
    errors: [],
    source: 'as read',
  };
}

function zoneStep(zone: number, result: Instant): Step<Instant> {
  const text = `${zone < 0 ? '−' : '+'}${Math.abs(zone)} h`;
  return {
    rule: 'zone-description',
    title: 'Zone description',
    kind: 'correction',
    formula: { latex: 'W + ZD', plain: 'W + ZD' },
    figures: text,
    inputs: [{ name: 'zone description', symbol: 'ZD', value: zone, text, origin: 'given' }],
    result,
    errors: [],
    source: 'common practice, no source',
  };
}

function errorStep(fields: DeckWatchFields, watch: WatchCheck, result: Instant): Step<Instant> {
  const errorS = watch.error.seconds;
  return {
    rule: 'watch-error',
    title: 'Watch error',
    kind: 'correction',
    formula: { latex: 'W - e', plain: 'W − e (fast +)' },
    figures: `− (${tenth(errorS)} s)`,
    inputs: [
      { name: 'watch error', symbol: 'e', value: errorS, text: fields.error, origin: 'given' },
    ],
    result,
    errors: [],
    source: 'common practice, no source',
  };
}

function rateStep(
  fields: DeckWatchFields,
  watch: WatchCheck,
  nearly: Instant,
  result: Instant,
): Step<Instant> {
  const rateS = watch.dailyRate.seconds;
  const days = watch.checked ? nearly.minus(watch.checked).days : 0;
  const far = Math.abs(days) > FAR_DAYS;
  return {
    rule: 'watch-rate',
    title: 'Watch rate',
    kind: 'correction',
    formula: { latex: 'W - e - r\\,\\Delta d', plain: 'W − e − r·days (gaining +)' },
    figures: `− (${tenth(rateS)} s × ${days.toFixed(2)} d)`,
    inputs: [
      { name: 'daily rate', symbol: 'r', value: rateS, text: fields.rate ?? '', origin: 'given' },
      {
        name: 'days since the check',
        value: days,
        text: `${days.toFixed(2)} d`,
        origin: 'computed',
      },
    ],
    result,
    errors: [],
    source: 'common practice, no source',
    ...(far
      ? {
          caution: `The rate is carried over ${days.toFixed(0)} days: compare the watch with a time signal.`,
        }
      : {}),
  };
}

/** The reading as an instant on the watch's own scale. */
function reading(fields: DeckWatchFields): Instant {
  if (typeof fields.date !== 'string' || !/^\s*\d{4}-\d{2}-\d{2}\s*$/.test(fields.date))
    throw new EntryError('Give the date of the sight as 2027-05-11.', String(fields.date));
  const clock = typeof fields.reading === 'string' ? fields.reading.trim() : '';
  if (!/^\d{2}:\d{2}:\d{2}(?:\.\d+)?$/.test(clock))
    throw new EntryError('Give the watch reading as 09:42:20.', String(fields.reading));
  const instant = Instant.utc(`${fields.date.trim()} ${clock}`);
  if (fields.dialHours !== 12) return instant;
  if (fields.near === undefined)
    throw new EntryError(
      'A 12-hour dial does not tell forenoon from afternoon. Add near: 2027-05-11 10:00:00 UTC.',
      clock,
    );
  return nearest(instant, Instant.utc(fields.near).plus(Duration.hours(-(fields.zone ?? 0))));
}

function nearest(instant: Instant, near: Instant): Instant {
  const halfDays = Math.round(near.minus(instant).hours / 12);
  return instant.plus(Duration.hours(12 * halfDays));
}

/** A watch is not read finer than a tenth of a second. */
function roundedToTenth(instant: Instant): Instant {
  return Instant.fromEpochMs(Math.round(instant.epochMs / 100) * 100);
}
