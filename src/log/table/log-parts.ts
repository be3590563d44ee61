import { ColumnTable } from 'arquero';
import type { CellValue } from '../columns/column.js';
import { derivedKeys } from './reading-row.js';

export type Columns = Record<string, ArrayLike<CellValue>>;
export type Names = readonly string[];

export const isDerived = (key: string): boolean => (derivedKeys as Names).includes(key);

/** What a table has besides its columns. */
export interface Rest {
  readonly filter?: unknown;
  readonly groups?: unknown;
  readonly order?: unknown;
}

/** The same rows as a plain arquero table, with the columns wanted. */
export function arqueroTable(
  table: ColumnTable,
  keep: (name: string) => boolean = () => true,
): ColumnTable {
  const names = table.columnNames(keep);
  const data = table.data() as Record<string, never>;
  return new ColumnTable(
    Object.fromEntries(names.map((n) => [n, data[n]])) as never,
    names,
    table.mask(),
    table.groups(),
    table.comparator(),
  );
}

/** A column as an array: one that comes from Arrow has only `at`. */
export function plainColumn(column: ArrayLike<CellValue> | undefined): ArrayLike<CellValue> {
  if (column === undefined) return [];
  if (Array.isArray(column) || ArrayBuffer.isView(column)) return column;
  return Array.from(column as unknown as Iterable<CellValue>, (v) => v ?? null);
}

/** @throws RangeError when one of the keys is a column that the log works out itself */
export function refuseDerived(keys: Names): void {
  const own = keys.find(isDerived);
  if (own !== undefined)
    throw new RangeError(
      `'${own}' is worked out from the readings: change what it follows from, or give the new column another name`,
    );
}
