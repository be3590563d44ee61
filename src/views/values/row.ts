import { tableHtml, tableText, type PlainTable } from '../plain-table.js';

/** One value as a row of a table: figures by head. */
export type Row = Readonly<Record<string, string>>;

/** Values with a method under this symbol stand in a list as rows of a table. */
export const ROW: unique symbol = Symbol.for('cocked-hat.row') as never;

/** Most rows of a list that are shown without being asked. */
const MOST_ROWS = 50;

/** Gives all values of a class a row, out of sight of loops over their fields. */
export function installRow<T>(target: { readonly prototype: T }, row: (value: T) => Row): void {
  Object.defineProperty(target.prototype, ROW, {
    configurable: true,
    enumerable: false,
    value(this: T): Row {
      return row(this);
    },
  });
}

/** Rows of one kind as a table; the heads are those of the first. */
export function rowsTable(caption: string, rows: readonly Row[]): PlainTable {
  const heads = Object.keys(rows[0] ?? {});
  return { caption, heads, rows: rows.map((row) => heads.map((head) => row[head] ?? '')) };
}

/** A list whose values all have a row, of one kind, as table and text; null for any other value. */
export function listBundle(value: unknown): { 'text/html': string; 'text/plain': string } | null {
  if (!Array.isArray(value) || value.length === 0 || !value.every(hasRow)) return null;
  const kind = Object.getPrototypeOf(value[0]) as unknown;
  if (value.some((item) => Object.getPrototypeOf(item) !== kind)) return null;
  const rest = value.length - MOST_ROWS;
  const rows = value.slice(0, MOST_ROWS).map((item) => item[ROW]());
  const table = rowsTable(rest > 0 ? `The first ${MOST_ROWS} of ${value.length}` : '', rows);
  return { 'text/html': tableHtml(table), 'text/plain': tableText(table) };
}

function hasRow(value: unknown): value is { [ROW](): Row } {
  return typeof value === 'object' && value !== null && ROW in value;
}
