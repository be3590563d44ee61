import type { LogRow, SightLog } from '../sight-log.js';
import { shownColumns, type ShownColumn } from './shown-columns.js';

/** What a table of a log shows and sorts by; plain JSON. */
export interface LogTableData {
  readonly columns: readonly {
    readonly key: string;
    readonly head: string;
    readonly unit: string;
    readonly align: 'left' | 'right' | 'centre';
  }[];
  readonly rows: readonly LogTableRow[];
  /** Rows of the log, if there are more than those here. */
  readonly total: number;
  /** What reading the file found, in one sentence; empty for a log that came from no file. */
  readonly summary: string;
}

/** One row of a shown log, in trade notation. */
export interface LogTableRow {
  /** Texts in trade notation, in the order of the columns; empty where nothing was noted. */
  readonly cells: readonly string[];
  /** What to sort by, in the same order: numbers, words, or null. */
  readonly sort: readonly (number | string | null)[];
  /** The reading is in the log, but not used. */
  readonly rejected: boolean;
}

/** Which columns a shown log has. */
export interface LogTableOptions {
  /** Keys of the columns wanted; unless told, all that hold something, but the ones slow to work out. */
  readonly columns?: readonly (keyof LogRow)[];
  /** At most so many rows, 2000 unless told; `total` says how many there are. */
  readonly limit?: number;
}

const MOST_ROWS = 2000;

/** The table of a log for a page. */
export function logTable(log: SightLog, options: LogTableOptions = {}): LogTableData {
  const rows = log.slice(0, options.limit ?? MOST_ROWS).rows();
  const wanted = options.columns;
  const columns = wanted
    ? wanted.map(columnNamed)
    : inSight(
        shownColumns.filter((c) => c.usual && rows.some((r) => shows(c, r))),
        rows,
      );
  return {
    columns: columns.map(({ key, head, unit, align }) => ({ key, head, unit, align })),
    rows: rows.map((row) => ({
      cells: columns.map((c) => cellText(c, row)),
      sort: columns.map((c) => sortKey(row[c.key])),
      rejected: !row.accepted,
    })),
    total: log.numRows(),
    summary: summaryOf(log),
  };
}

/** What reading found, said of the whole log; of a part of it, how large a part it is. */
function summaryOf(log: SightLog): string {
  const { rows, taken, summary } = log.report;
  if (rows === 0) return '';
  const shown = log.numRows();
  return shown < taken ? `${shown} of the ${taken} rows taken from the file.` : summary;
}

/** Where no reading is used the reason is what is looked for: it stands beside the body, and a column of "no" is left out. */
function inSight(columns: readonly ShownColumn[], rows: readonly LogRow[]): readonly ShownColumn[] {
  const reason = columns.find((c) => c.key === 'reason');
  if (!reason || rows.some((row) => row.accepted)) return columns;
  return columns
    .filter((c) => c.key !== 'reason' && c.key !== 'accepted')
    .flatMap((c) => (c.key === 'body' ? [c, reason] : [c]));
}

/** `accepted` is worth a column only where something is not used, `limb` only where there is one. */
function shows({ key }: ShownColumn, row: LogRow): boolean {
  const value = row[key];
  if (key === 'accepted') return value === false;
  if (key === 'limb') return value !== 'centre';
  return value !== null && value !== undefined;
}

function cellText(column: ShownColumn, row: LogRow): string {
  const value = row[column.key];
  if (value === null || value === undefined) return '';
  if (column.key === 'limb' && value === 'centre') return '';
  return column.text(value as never);
}

const sortKey = (value: LogRow[keyof LogRow] | undefined): number | string | null =>
  typeof value === 'boolean' ? Number(value) : (value ?? null);

function columnNamed(key: keyof LogRow): ShownColumn {
  const found = shownColumns.find((c) => c.key === key);
  if (!found)
    throw new RangeError(
      `a log shows no column '${key}'; it shows ${shownColumns.map((c) => `'${c.key}'`).join(', ')}`,
    );
  return found;
}
