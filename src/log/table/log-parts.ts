import { ColumnTable } from 'arquero';
import type { CellValue } from '../columns/column.js';
import { nearest } from '../../core/units/nearest-word.js';
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

const MOST_NAMED = 8;

/** Says that there is no such round, which one may be meant, and which there are. */
export function noSuchRound(name: string, names: Names): string {
  const near = nearest(name, names);
  const meant = near ? `did you mean '${near}'? ` : '';
  const shown = names.slice(0, MOST_NAMED).map((n) => `'${n}'`);
  const more = names.length > MOST_NAMED ? ` and ${names.length - MOST_NAMED} more` : '';
  return `there is no round '${name}'; ${meant}the rounds are ${shown.join(', ')}${more}: log.roundNames() lists them`;
}
