import type { CellValue } from '../columns/column.js';
import { logColumns } from '../columns/log-columns.js';
import { RowBuffer } from './row-buffer.js';

/** Grows the columns of a log row by row. Numbers end in typed arrays where no value is missing. */
export class ColumnBuilder {
  /** The row to fill before `add`. */
  readonly row: RowBuffer;
  private readonly columns: CellValue[][];

  constructor(ownKeys: readonly string[] = []) {
    const keys = logColumns.flatMap((c) => (c.textKey ? [c.key, c.textKey] : [c.key]));
    this.row = new RowBuffer(['line', ...keys, ...ownKeys]);
    this.columns = this.row.keys.map(() => []);
  }

  /** Adds the row as it is filled. */
  add(): void {
    const { values } = this.row;
    for (let i = 0; i < values.length; i++) this.columns[i]?.push(values[i] ?? null);
  }

  finish(): Record<string, ArrayLike<CellValue>> {
    const typed = (values: CellValue[]) =>
      values.length > 0 && values.every((v) => typeof v === 'number')
        ? Float64Array.from(values as number[])
        : values;
    return Object.fromEntries(this.row.keys.map((key, i) => [key, typed(this.columns[i] ?? [])]));
  }
}
