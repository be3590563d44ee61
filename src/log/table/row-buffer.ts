import type { CellValue } from '../columns/column.js';

/** One row on its way into the columns: values by key, kept in one array that is filled again for each row. */
export class RowBuffer {
  private readonly places: ReadonlyMap<string, number>;
  readonly values: CellValue[];

  constructor(readonly keys: readonly string[]) {
    this.places = new Map(keys.map((key, i) => [key, i]));
    this.values = keys.map(() => null);
  }
  /** Where a key stands in `values`; -1 when there is none. */
  placeOf(key: string): number {
    return this.places.get(key) ?? -1;
  }
  get(key: string): CellValue {
    return this.values[this.places.get(key) ?? -1] ?? null;
  }
  set(key: string, value: CellValue): void {
    const place = this.places.get(key);
    if (place !== undefined) this.values[place] = value;
  }
  clear(): void {
    this.values.fill(null);
  }
}
