import type { CellValue } from '../columns/column.js';
import { logColumns } from '../columns/log-columns.js';

/** Grows the columns of a log row by row. Numbers end in typed arrays where no value is missing. */
export class ColumnBuilder {
  private readonly columns: Record<string, CellValue[]> = { line: [] };
  private rows = 0;

  constructor(ownKeys: readonly string[] = []) {
    for (const column of logColumns) {
      this.columns[column.key] = [];
      if (column.textKey) this.columns[column.textKey] = [];
    }
    for (const key of ownKeys) this.columns[key] = [];
  }

  /** Adds a row; a key that is not there means not noted. */
  add(row: ReadonlyMap<string, CellValue>): void {
    this.rows += 1;
    for (const key in this.columns) this.columns[key]?.push(row.get(key) ?? null);
  }

  finish(): Record<string, ArrayLike<CellValue>> {
    const typed = (values: CellValue[]) =>
      this.rows > 0 && values.every((v) => typeof v === 'number')
        ? Float64Array.from(values as number[])
        : values;
    return Object.fromEntries(Object.entries(this.columns).map(([k, v]) => [k, typed(v)]));
  }
}
