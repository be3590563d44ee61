import { RowAmender } from '../../log/amend/amend-row.js';
import type { Amendment, Corrected, Draft } from '../../log/amend/amendment.js';
import { entryText } from '../../log/amend/amendments.js';
import { entryColumns } from '../../log/amend/entry-names.js';
import { labelNumber, readingLabel } from '../../log/amend/labels.js';
import { freeSight } from '../../log/amend/place-reading.js';
import { amendmentCode } from '../../log/amend/write-code.js';
import { CodeLines } from './code-lines.js';
import type { EditData, RefusedEntries } from './edit-data.js';
import { completed } from './completed.js';
import { PageStore } from './page-store.js';
import { stillRefused } from './refused-rows.js';
import { ShownRows } from './shown-rows.js';
import type { Drafts, KeptSheet, Move, SheetRow, Texts } from './sheet-parts.js';

export type { KeptSheet, SheetRow, Texts };

/** A sight log being amended: entries go in as they are typed, moves can be undone, the amendments come out as code. */
export class Sheet {
  readonly own: ReadonlySet<string>;
  /** Names of all entries, in the order of a file. */
  readonly names: readonly string[];
  private readonly store: PageStore;
  private readonly amender: RowAmender;
  private readonly book: CodeLines;
  private done: Move[] = [];
  private undone: Move[] = [];
  private drafts: Drafts = new Map();
  private serial = 1;
  private moving: Amendment[] | null = null;
  private readonly shown: ShownRows;

  constructor(public data: EditData) {
    this.own = new Set(data.own.map((c) => c.key));
    this.names = [...entryColumns.keys(), ...this.own];
    this.store = new PageStore(data);
    this.amender = new RowAmender(this.own);
    this.book = new CodeLines(this.store, this.own);
    this.shown = new ShownRows(data, this.store, this.amender, this.names);
  }

  /** All readings, and at the end an empty one to type into; a row that did not change is the same object. */
  rows(): SheetRow[] {
    const numbers = this.store.numbers().map(String);
    const open = [...this.drafts.keys()].filter((id) => id.startsWith('new'));
    return [...numbers, ...open, this.blank].map((id) => this.row(id));
  }

  /** The id of the empty row. */
  get blank(): string {
    return `new ${this.serial}`;
  }

  row(id: string): SheetRow {
    return this.shown.row(id, this.drafts.get(id));
  }

  /** What stands in the log for entries that have a draft. */
  standing(id: string): Texts {
    const row = this.store.row(Number(id));
    const names = Object.keys(this.drafts.get(id) ?? {});
    return Object.fromEntries(names.map((n) => [n, row ? entryText(n, row, this.own) : '']));
  }

  /** Why a text cannot stand in an entry; null when it can. */
  judge(id: string, name: string, text: string): string | null {
    const trial = { ...this.drafts.get(id), [name]: this.complete(id, name, text) };
    const found = this.amender.amend(this.store.row(Number(id)) ?? null, trial).findings;
    return found.find((f) => f.refuse && f.name === name)?.reason ?? null;
  }

  /** Puts texts into entries; what cannot be taken is kept as a draft. A new reading is taken when `settle` is called. */
  enter(entries: readonly (readonly [id: string, texts: Texts])[]): void {
    this.move(() => {
      for (const [id, texts] of entries) this.put(id, texts);
    });
  }

  /**
   * Puts rows of texts over these readings, from the first on, and makes new readings of those left over.
   * @returns how many were taken; the others are drafts
   */
  paste(ids: readonly string[], rows: readonly Texts[]): number {
    let taken = 0;
    this.move(() => {
      rows.forEach((texts, i) => {
        const id = ids[i] ?? this.blank;
        this.put(id, texts);
        const typed = this.drafts.get(id);
        if (typed && id.startsWith('new') && this.amender.amend(null, typed).row) {
          this.amend({ kind: 'add', entries: typed });
          this.draft(id, {});
        }
        if (!this.drafts.has(id)) taken += 1;
      });
    });
    return taken;
  }

  /** Refused rows of the file that are not among the readings, taken or typed, yet. */
  refused(): readonly RefusedEntries[] {
    return stillRefused(this.data.refused, this.openDrafts(), this.amendments);
  }

  /** Puts the refused rows under the readings, to be mended there. */
  takeRefused(): void {
    const rows = this.refused().map(({ texts }) => texts);
    this.paste([], rows);
  }

  /** Takes new readings that are complete, but for the one still being typed. */
  settle(except = ''): void {
    const ready = [...this.drafts].filter(
      ([id, texts]) => id.startsWith('new') && id !== except && this.amender.amend(null, texts).row,
    );
    if (ready.length > 0)
      this.move(() => {
        for (const [id, texts] of ready) {
          this.amend({ kind: 'add', entries: texts });
          this.draft(id, {});
        }
      });
  }

  /** @returns why it cannot be done; null when it is */
  reject(ids: readonly string[], reason: string): string | null {
    return this.mark(ids, (which) => ({ kind: 'reject', which, reason: reason.trim() }));
  }
  accept(ids: readonly string[]): string | null {
    return this.mark(ids, (which) => ({ kind: 'accept', which }));
  }
  /** Makes readings one sight, in the round of the first. An empty name is the next free number. */
  group(ids: readonly string[], sight: string): string | null {
    const first = this.store.row(Number(ids[0]));
    if (!first) return NO_READINGS;
    const round = String(first['round']);
    const free = sight.trim() || freeSight(this.store, round);
    return this.mark(ids, (which) => ({ kind: 'group', which, round, sight: free }));
  }

  private mark(ids: readonly string[], made: (which: string[]) => Amendment): string | null {
    const which = ids.flatMap((id) => this.label(id) ?? []);
    if (which.length === 0) return NO_READINGS;
    return this.move(() => this.amend(made(which)));
  }

  /** What the code calls a reading; null for one that is not in the log. */
  label(id: string): string | null {
    const row = this.store.row(Number(id));
    return row ? readingLabel(Number(id), row) : null;
  }

  get canUndo(): boolean {
    return this.done.length > 0;
  }
  get canRedo(): boolean {
    return this.undone.length > 0;
  }
  undo(): void {
    const move = this.done.pop();
    if (!move) return;
    this.store.restore(move.before);
    this.drafts = move.draftsBefore;
    this.undone.push(move);
  }
  redo(): void {
    const move = this.undone.pop();
    if (!move) return;
    for (const amendment of move.amendments) this.book.apply(amendment);
    this.done.push({ ...move, before: this.store.taken() });
    this.drafts = move.draftsAfter;
  }

  get amendments(): Amendment[] {
    return this.done.flatMap((move) => move.amendments);
  }
  /** What was typed and is not in the log. */
  openDrafts(): Draft[] {
    return [...this.drafts].map(([id, entries]) => ({ which: this.label(id), entries }));
  }
  code(): string {
    return amendmentCode(this.data, this.book.lines(this.amendments), this.openDrafts());
  }
  kept(): KeptSheet {
    return {
      moves: this.done.map((m) => m.amendments).filter((a) => a.length > 0),
      drafts: this.openDrafts(),
    };
  }

  /** Makes kept moves again. @returns those that do not fit this log, with the reason */
  restore(kept: KeptSheet): readonly { readonly amendment: Amendment; readonly reason: string }[] {
    const misfits: { amendment: Amendment; reason: string }[] = [];
    for (const amendments of kept.moves)
      this.move(() => {
        for (const amendment of amendments)
          try {
            this.amend(amendment);
          } catch (error) {
            misfits.push({ amendment, reason: (error as Error).message.split('\n')[0] ?? '' });
          }
      });
    for (const { which, entries } of kept.drafts) {
      const number = which === null ? NaN : labelNumber(which);
      const texts = Object.fromEntries(
        Object.entries(entries).filter(([name]) => this.names.includes(name)),
      );
      this.draft(this.store.row(number) ? String(number) : this.newId(), texts);
    }
    return misfits;
  }

  private newId(): string {
    return `new ${this.serial++}`;
  }

  private put(id: string, given: Texts): void {
    if (id === this.blank) this.serial += 1;
    const row = this.store.row(Number(id)) ?? null;
    const typed = Object.entries(given).map(
      ([n, text]) => [n, this.complete(id, n, text)] as const,
    );
    const all = { ...this.drafts.get(id), ...Object.fromEntries(typed) };
    const stands = (name: string) => (row ? entryText(name, row, this.own) : '');
    const texts = Object.fromEntries(Object.entries(all).filter(([n, text]) => text !== stands(n)));
    this.draft(id, texts);
    if (!row || Object.keys(texts).length === 0 || !this.amender.amend(row, texts).row) return;
    const corrected: [string, Corrected][] = Object.entries(texts).map(([name, is]) => [
      name,
      { was: stands(name), is },
    ]);
    const which = readingLabel(Number(id), row);
    this.amend({ kind: 'correct', which, entries: Object.fromEntries(corrected) });
    this.draft(id, {});
  }

  private complete(id: string, name: string, text: string): string {
    const numbers = this.store.numbers();
    const before = this.store.row(Number(id)) ?? this.store.row(numbers.at(-1) ?? NaN);
    return completed(name, text.trim(), before, this.drafts.get(id)?.[name]);
  }

  private draft(id: string, texts: Texts): void {
    const drafts = new Map(this.drafts);
    if (Object.keys(texts).length > 0) drafts.set(id, texts);
    else drafts.delete(id);
    this.drafts = drafts;
  }

  private amend(amendment: Amendment): void {
    this.book.apply(amendment);
    this.moving?.push(amendment);
  }

  /** Does something as one move that can be undone; takes it back when it cannot be done. Returns why, or null. */
  private move(work: () => void): string | null {
    const draftsBefore = this.drafts;
    const amendments: Amendment[] = (this.moving = []);
    let failure: string | null = null;
    try {
      work();
    } catch (error) {
      failure = (error as Error).message.split('\n')[0] ?? '';
    }
    this.moving = null;
    const before = this.store.taken();
    for (const [number] of before) this.shown.touch(number);
    if (failure !== null) {
      this.store.restore(before);
      this.drafts = draftsBefore;
    } else if (amendments.length > 0 || this.drafts !== draftsBefore) {
      this.done.push({ amendments, before, draftsBefore, draftsAfter: this.drafts });
      this.undone = [];
    }
    return failure;
  }
}

const NO_READINGS = 'Choose readings of the log first.';
