import { entryColumns } from '../../log/amend/entry-names.js';
import { entryText } from '../../log/amend/amendments.js';
import type { SightLog } from '../../log/index.js';
import {
  list,
  oneOf,
  optional,
  record,
  text,
  within,
  ViewDataError,
  type Check,
} from '../check.js';

/** A sight log to be amended: what was written in each reading, and the names for the code. */
export interface EditData {
  readonly format: 1;
  readonly viewId?: string | undefined;
  /** The variable that holds the log, and the one that gets the amended one. */
  readonly log: string;
  readonly as: string;
  /** Names of the entries that any reading has. */
  readonly entries: readonly string[];
  /** The user's own columns. */
  readonly own: readonly { readonly key: string; readonly head: string }[];
  readonly rows: readonly EditRow[];
  /** Rows of the file that were refused and can be mended here: their line, and texts by the names of entries. */
  readonly refused: readonly RefusedEntries[];
}

export interface RefusedEntries {
  readonly line: number;
  readonly texts: Readonly<Record<string, string>>;
}

export interface EditRow {
  /** From 1, in the order in which the log was read. */
  readonly number: number;
  /** Texts in the order of `entries`. */
  readonly cells: readonly string[];
  /** Why the reading is not used; null when it is. */
  readonly rejected: string | null;
}

/** Readings that an editor takes. */
export const MOST_READINGS = 10_000;
/** Refused rows that it offers; a file with more is better mended as a whole, by its report. */
export const MOST_REFUSED = 500;
const IDENTIFIER = /^[A-Za-z_$][\w$]{0,80}$/;
const OWN_KEY = /^\p{L}[\p{L}\p{N}]*$/u;

/** What stands in a log, for the page. @throws RangeError for a log too long, or names that are none */
export function editData(
  log: SightLog,
  names: { log: string; as: string },
  viewId?: string,
): EditData {
  if (log.numRows() > MOST_READINGS)
    throw new RangeError(
      `the editor takes up to ${MOST_READINGS} readings and the log has ${log.numRows()}: give it a part, such as log.roundLog(…)`,
    );
  for (const name of [names.log, names.as])
    if (!IDENTIFIER.test(name)) throw new RangeError(`'${name}' is no name for a variable`);
  const heads = log.ownHeads;
  const own = new Set(heads.keys());
  const all = [...entryColumns.keys(), ...own];
  const shown = Array.from(log.indices(), (i) => i + 1);
  const rows = log.readings().map((row, i) => ({
    number: shown[i] as number,
    cells: all.map((name) => entryText(name, row as never, own)),
    rejected: row.accepted ? null : (row.reason ?? ''),
  }));
  const used = all.map((_, i) => rows.some((r) => r.cells[i] !== ''));
  return {
    format: 1,
    ...(viewId === undefined ? {} : { viewId }),
    ...names,
    entries: all.filter((_, i) => used[i]),
    own: [...heads].map(([key, head]) => ({ key, head })),
    rows: rows.map((r) => ({ ...r, cells: r.cells.filter((_, i) => used[i]) })),
    refused: log.report.refused
      .flatMap(({ line, entries }) => (entries ? [{ line, texts: entries }] : []))
      .slice(0, MOST_REFUSED),
  };
}

const matching =
  (pattern: RegExp, what: string): Check<string> =>
  (value, path) => {
    if (typeof value !== 'string' || !pattern.test(value))
      throw new ViewDataError(path, what, value);
    return value;
  };
const identifier = matching(IDENTIFIER, 'the name of a variable');
const rejected: Check<string | null> = (value, path) => (value === null ? null : text(value, path));
const texts: Check<Readonly<Record<string, string>>> = (value, path) => {
  const entries = typeof value === 'object' && value !== null ? Object.entries(value) : [];
  if (entries.length === 0 || entries.length > 120)
    throw new ViewDataError(path, 'texts by the names of entries', value);
  return Object.fromEntries(entries.map(([name, held]) => [name, text(held, `${path}.${name}`)]));
};
const fields = record({
  format: oneOf(1),
  viewId: optional(text),
  log: identifier,
  as: identifier,
  entries: list(text, 120),
  own: list(record({ key: matching(OWN_KEY, 'the key of a column'), head: text }), 90),
  rows: list(record({ number: within(1, 1e7), cells: list(text, 120), rejected }), MOST_READINGS),
  refused: optional(list(record({ line: within(0, 1e7), texts }), MOST_REFUSED)),
});

/** Data of an editor out of a notebook file. @throws ViewDataError naming the field that is wrong */
export function checkEditData(value: unknown): EditData {
  const read = fields(value, '');
  const data = { ...read, refused: read.refused ?? [] } as EditData;
  const own = new Set(data.own.map((c) => c.key));
  const unknown = data.entries.find((name) => !entryColumns.has(name) && !own.has(name));
  if (unknown !== undefined) throw new ViewDataError('entries', 'names of entries', unknown);
  const numbers = new Set(data.rows.map((r) => r.number));
  if (numbers.size < data.rows.length || ![...numbers].every(Number.isInteger))
    throw new ViewDataError('rows', 'readings each with a number of its own', data.rows.length);
  return data;
}
