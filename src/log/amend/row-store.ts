import type { CellValue } from '../columns/column.js';

/** The values of one reading by key. */
export type RowValues = Readonly<Record<string, CellValue>>;

/** Readings that can be amended, by their numbers: from 1, in the order in which the log was read. */
export interface RowStore {
  numbers(): Iterable<number>;
  row(number: number): RowValues | undefined;
  put(number: number, row: RowValues): void;
  /** Adds a reading at the end. Returns its number. */
  append(row: RowValues): number;
}
