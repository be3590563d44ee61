import { logColumns } from '../columns/log-columns.js';
import type { LogColumn } from '../columns/column.js';
import { nearest } from '../../core/units/nearest-word.js';

/** What an amendment calls the entries of a reading: the keys of `ReadingRow` without unit, `readingText` being `reading`. */
export type EntryName =
  | 'round'
  | 'sight'
  | 'utc'
  | 'watch'
  | 'watchError'
  | 'body'
  | 'limb'
  | 'reading'
  | 'observer'
  | 'instrument'
  | 'indexError'
  | 'horizon'
  | 'horizonDistance'
  | 'eyeHeight'
  | 'temperature'
  | 'pressure'
  | 'positionKind'
  | 'lat'
  | 'lon'
  | 'course'
  | 'speed'
  | 'sea'
  | 'statedSigma'
  | 'remarks';

/** The name of a column's entry. */
export const entryName = (column: LogColumn): string =>
  column.textKey ? column.textKey.replace(/Text$/, '') : column.key;

/** Whether a reading is used is no entry: it goes by `reject` and `accept`. */
const VERDICT = new Set(['accepted', 'reason']);

/** The columns that entries go into, by the names of the entries, in the order of a file. */
export const entryColumns: ReadonlyMap<string, LogColumn> = new Map(
  logColumns.filter((c) => !VERDICT.has(c.key)).map((c) => [entryName(c), c]),
);

/** The column of an entry, or null for a column of the user's own. @throws RangeError when there is none of that name */
export function entryColumn(name: string, own: ReadonlySet<string>): LogColumn | null {
  const column = entryColumns.get(name);
  if (column) return column;
  if (own.has(name)) return null;
  if (VERDICT.has(name))
    throw new RangeError(
      `'${name}' is no entry to correct: write book.reject(12, 'horizon hazy') or book.accept(12)`,
    );
  const names = [...entryColumns.keys(), ...own];
  const near = nearest(name, names);
  throw new RangeError(
    `a reading has no entry '${name}'; ${near ? `did you mean '${near}'? ` : ''}the entries are ${names.join(', ')}`,
  );
}
