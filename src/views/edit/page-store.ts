import { RowAmender } from '../../log/amend/amend-row.js';
import type { RowStore, RowValues } from '../../log/amend/row-store.js';
import type { EditData } from './edit-data.js';

/** What a reading was before it was amended; nothing for one that was added. */
export type Before = readonly [number: number, row: RowValues | undefined];

/** The readings in the page, each understood when it is first looked at. */
export class PageStore implements RowStore {
  private readonly known = new Map<number, RowValues | undefined>();
  private readonly source: ReadonlyMap<number, EditData['rows'][number]>;
  private readonly amender: RowAmender;
  private readonly order: number[];
  private changes: Before[] = [];

  constructor(private readonly data: EditData) {
    this.amender = new RowAmender(new Set(data.own.map((c) => c.key)));
    this.source = new Map(data.rows.map((row) => [row.number, row]));
    this.order = data.rows.map((row) => row.number);
    for (const { number } of data.rows) this.last = Math.max(this.last, number);
  }
  private last = 0;

  numbers(): readonly number[] {
    return this.order;
  }

  row(number: number): RowValues | undefined {
    if (!this.known.has(number)) this.known.set(number, this.understood(number));
    return this.known.get(number);
  }

  /** The text of an entry as it came, for a reading that has not been looked at. */
  private understood(number: number): RowValues | undefined {
    const source = this.source.get(number);
    if (!source) return undefined;
    const texts = this.data.entries.map((name, i) => [name, source.cells[i] ?? ''] as const);
    const given = Object.fromEntries(texts.filter(([, text]) => text !== ''));
    const { row } = this.amender.amend(null, given);
    const verdict =
      source.rejected === null ? {} : { accepted: false, reason: source.rejected || null };
    return row ? { ...row, ...verdict } : undefined;
  }

  put(number: number, row: RowValues): void {
    this.changes.push([number, this.row(number)]);
    this.known.set(number, row);
  }

  append(row: RowValues): number {
    this.last += 1;
    this.order.push(this.last);
    this.changes.push([this.last, undefined]);
    this.known.set(this.last, row);
    return this.last;
  }

  /** What was changed since this was last asked. */
  taken(): readonly Before[] {
    const { changes } = this;
    this.changes = [];
    return changes;
  }

  /** Puts back what was. */
  restore(changes: readonly Before[]): void {
    for (const [number, row] of changes.toReversed()) {
      if (row) this.known.set(number, row);
      else {
        this.known.delete(number);
        this.order.pop();
        this.last -= 1;
      }
    }
  }
}
