import type { CellValue } from '../columns/column.js';
import { rowAt } from '../derived/rows.js';
import type { Columns } from '../table/log-parts.js';
import type { RowStore, RowValues } from './row-store.js';

/** The columns of a log to be amended; those given stay as they are. */
export class ColumnStore implements RowStore {
  private readonly changed = new Map<number, RowValues>();
  private readonly isShown: ReadonlySet<number>;
  private count: number;

  /** @param shown places of the rows that the log shows, from 0 */
  constructor(
    private readonly columns: Columns,
    private readonly length: number,
    private readonly shown: readonly number[],
  ) {
    this.count = length;
    this.isShown = new Set(shown);
  }

  *numbers(): Generator<number> {
    for (const i of this.shown) yield i + 1;
    for (let i = this.length; i < this.count; i++) yield i + 1;
  }

  row(number: number): RowValues | undefined {
    const changed = this.changed.get(number);
    if (changed || !this.isShown.has(number - 1)) return changed;
    const row = rowAt(this.columns, number - 1) as unknown as RowValues;
    this.changed.set(number, row);
    return row;
  }

  put(number: number, row: RowValues): void {
    this.changed.set(number, row);
  }

  append(row: RowValues): number {
    this.count += 1;
    this.changed.set(this.count, row);
    return this.count;
  }

  /** Rows added, and the columns with everything put in its place. */
  finish(): { added: number; columns: Columns } {
    const columns: Record<string, CellValue[]> = {};
    for (const [key, column] of Object.entries(this.columns)) {
      const values = Array.from({ length: this.length }, (_, i) => column[i] ?? null);
      for (let number = this.length + 1; number <= this.count; number++)
        values.push(this.changed.get(number)?.[key] ?? null);
      for (const [number, row] of this.changed) values[number - 1] = row[key] ?? null;
      columns[key] = values;
    }
    return { added: this.count - this.length, columns };
  }
}
