import { EntryError, Instant, OutOfRangeError } from '../../core/units/index.js';
import type { SkyModel } from './sky-model.js';
import { dateAndClock } from './sky-text.js';

const CLOCK = /^\s*(\d{1,2})[:.h]?(\d{2})(?:[:.](\d{2}))?\s*(?:utc|z)?\s*$/i;
const DATED = /^\s*\d{4}-/;
const DAY_MS = 86_400_000;

/**
 * A time of the view's day as it is typed: `18:42`, `18:42:30`, or with its date.
 * @throws EntryError when it cannot be read, OutOfRangeError when it is another day
 */
export function timeOfDay(
  written: string,
  { firstMs, lastMs }: Pick<SkyModel, 'firstMs' | 'lastMs'>,
): number {
  const ms = DATED.test(written) ? Instant.utc(written).epochMs : onClock(written, firstMs);
  if (ms < firstMs || ms > lastMs)
    throw new OutOfRangeError(
      `this view reaches from ${dateAndClock(firstMs)} to ${dateAndClock(lastMs)}, and ${written.trim()} lies outside`,
    );
  return ms;
}

/** The moment after `firstMs` at which a clock of UTC shows that. */
function onClock(written: string, firstMs: number): number {
  const [, h, m, s = '0'] = CLOCK.exec(written) ?? [];
  const [hour, minute, second] = [Number(h), Number(m), Number(s)];
  if (!(hour < 24 && minute < 60 && second < 60))
    throw new EntryError("A time is written '18:42' or '2027-05-14 18:42:00 UTC'.", written);
  const ofDay = ((hour * 60 + minute) * 60 + second) * 1000;
  const midnight = Math.floor(firstMs / DAY_MS) * DAY_MS;
  return midnight + ofDay < firstMs ? midnight + DAY_MS + ofDay : midnight + ofDay;
}
