import type { RowAmender } from '../../log/amend/amend-row.js';
import { entryText } from '../../log/amend/amendments.js';
import type { RowValues } from '../../log/amend/row-store.js';
import type { EditData } from './edit-data.js';
import type { PageStore } from './page-store.js';
import type { SheetRow, Texts } from './sheet-parts.js';

/** Readings as the grid shows them; a row that did not change is the same object. */
export class ShownRows {
  private readonly held = new Map<string, { key: unknown; drafts: unknown; row: SheetRow }>();
  private readonly fresh: ReadonlyMap<number, Pick<SheetRow, 'texts' | 'rejected'>>;
  private readonly touched = new Set<number>();

  constructor(
    data: EditData,
    private readonly store: PageStore,
    private readonly amender: RowAmender,
    /** Names of all entries. */
    private readonly names: readonly string[],
  ) {
    this.fresh = new Map(
      data.rows.map((r) => [
        r.number,
        {
          texts: Object.fromEntries(data.entries.map((name, i) => [name, r.cells[i] ?? ''])),
          rejected: r.rejected,
        },
      ]),
    );
  }

  /** Says that a reading was amended, so that it is shown as it now is. */
  touch(number: number): void {
    this.touched.add(number);
  }

  /** The row of that id with what was typed into it and not taken. */
  row(id: string, drafts: Texts | undefined): SheetRow {
    const number = Number(id);
    // A reading that nobody has touched is shown as it came, without being understood.
    const touched = this.touched.has(number) || drafts !== undefined;
    const key = touched ? this.store.row(number) : 'as it came';
    const held = this.held.get(id);
    if (held && held.key === key && held.drafts === drafts) return held.row;
    const fresh = touched ? undefined : this.fresh.get(number);
    const row = fresh
      ? { id, drafts: {}, findings: [], ...fresh }
      : this.made(id, number, drafts ?? {});
    this.held.set(id, { key, drafts, row });
    return row;
  }

  private made(id: string, number: number, drafts: Texts): SheetRow {
    const values = this.store.row(number);
    const base = values ? this.textsOf(values) : (this.fresh.get(number)?.texts ?? {});
    const isOpen = Object.keys(drafts).length > 0;
    const { findings } = isOpen ? this.amender.amend(values ?? null, drafts) : { findings: [] };
    const rejected = values?.['accepted'] === false ? String(values['reason'] ?? '') : null;
    return { id, texts: { ...base, ...drafts }, drafts, findings, rejected };
  }

  private textsOf(row: RowValues): Texts {
    return Object.fromEntries(
      this.names.map((name) => [name, entryText(name, row, this.amender.own)]),
    );
  }
}
