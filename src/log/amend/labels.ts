import { EntryError } from '../../core/units/index.js';
import { nearest } from '../../core/units/nearest-word.js';
import type { RowStore, RowValues } from './row-store.js';

/** To the nearest second, as times are printed everywhere. */
const timeOf = (row: RowValues): string =>
  new Date(Math.round((row['utcMs'] as number) / 1000) * 1000).toISOString().slice(11, 19);

/** How a reading is called: its number, its body and its time of day in UTC, `12 Sun 09:42:17`. */
export const readingLabel = (number: number, row: RowValues): string =>
  `${number} ${String(row['body'])} ${timeOf(row)}`;

/** The number at the head of a label, or the number itself; NaN when there is none. */
export function labelNumber(which: number | string): number {
  if (typeof which === 'number') return which;
  const m = /^\s*(\d+)(?:\s|$)/.exec(which);
  return m ? Number(m[1]) : NaN;
}

/**
 * The number of the reading that is meant. Body and time behind the number are a check that the log is still the one
 * that the label was written for.
 * @throws RangeError when there is no such reading, EntryError when it is another one
 */
export function numberOf(which: number | string, store: RowStore): number {
  const number = labelNumber(which);
  const row = Number.isInteger(number) ? store.row(number) : undefined;
  if (!row) throw new RangeError(`there is no reading ${String(which)}: ${numbersThere(store)}`);
  if (typeof which === 'number' || which.trim() === String(number)) return number;
  const label = readingLabel(number, row);
  if (which.trim() === label) return number;
  const labels = [...store.numbers()].map((n) => readingLabel(n, store.row(n) as RowValues));
  const wanted = which.trim().replace(/^\d+ /, '');
  const moved =
    labels.find((l) => l.replace(/^\d+ /, '') === wanted) ?? nearest(which, labels) ?? label;
  throw new EntryError(
    `Reading ${number} is '${label}', not '${which.trim()}': the log is not the one this was written for. Is '${moved}' meant?`,
    which,
  );
}

function numbersThere(store: RowStore): string {
  const numbers = [...store.numbers()];
  return numbers.length === 0
    ? 'the log is empty'
    : `readings are numbered from ${numbers[0]} to ${numbers.at(-1)}, in the order in which the log was read`;
}
