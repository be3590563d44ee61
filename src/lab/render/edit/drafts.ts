import type { Amendment, Draft } from '../../../log/amend/amendment.js';
import type { KeptSheet } from '../../../views/edit/sheet.js';
import { readAmendments } from '../../../log/amend/read-code.js';
import { fnv1a } from '../../../exercises/seed/student-seed.js';
import { keep, kept } from '../keep.js';

/** What is kept in this browser of an editor: its moves and drafts, and marks of the codes it wrote. */
interface Kept extends KeptSheet {
  readonly written: readonly string[];
}

const MOST_MARKS = 300;
/** Enough of a mark to tell the codes of one notebook apart: 32 bits, and the length. */
const mark = (code: string): string => `${fnv1a(code).toString(36)}.${code.length}`;

const isTexts = (value: unknown): boolean =>
  typeof value === 'object' &&
  value !== null &&
  Object.values(value).every((v) => typeof v === 'string');

/** Keeps what an editor holds, by notebook and name, so that nothing typed goes with the page or the kernel. */
export class DraftKeeper {
  private written: string[] = [];

  constructor(private readonly key: string) {}

  /** @returns false where this page may not keep anything */
  keep(sheet: KeptSheet, code: string): boolean {
    const now = mark(code);
    this.written = [...this.written.filter((m) => m !== now), now].slice(-MOST_MARKS);
    return keep(this.key, { ...sheet, written: this.written } satisfies Kept);
  }

  /**
   * What to go on with. A cell that holds a code this editor once wrote, or none, is behind what the browser keeps; any
   * other was written elsewhere or by hand since, and goes before it; drafts of the browser are kept in either case.
   * @returns null when there is nothing, `unreadable` when the cell holds what no editor wrote
   */
  resume(code: string | undefined): KeptSheet | 'unreadable' | null {
    const held = this.held();
    if (code === undefined) return held;
    if (held && held.written.includes(mark(code))) return held;
    const read = readAmendments(code);
    if (!read) return 'unreadable';
    const drafts: readonly Draft[] = [...read.drafts, ...(held?.drafts ?? [])];
    return { moves: read.amendments.map((a: Amendment) => [a]), drafts };
  }

  private held(): Kept | null {
    const value = kept(this.key) as Partial<Kept> | undefined;
    const sound =
      Array.isArray(value?.moves) &&
      value.moves.every(Array.isArray) &&
      Array.isArray(value.drafts) &&
      value.drafts.every((d) => isTexts(d?.entries));
    if (!value || !sound) return null;
    this.written = Array.isArray(value.written) ? value.written.map(String) : [];
    return { moves: value.moves, drafts: value.drafts, written: this.written } as Kept;
  }
}
