import type { EntryFinding } from '../../log/amend/amend-row.js';
import type { Amendment, Draft } from '../../log/amend/amendment.js';
import type { Before } from './page-store.js';

export type Texts = Readonly<Record<string, string>>;
export type Drafts = ReadonlyMap<string, Texts>;

/** One reading as the grid shows it. */
export interface SheetRow {
  /** Its number as text, or `new 1` for one that is not in the log yet. */
  readonly id: string;
  readonly texts: Texts;
  /** Names of entries typed and not taken. */
  readonly drafts: Texts;
  readonly findings: readonly EntryFinding[];
  /** Why it is not used; null when it is. */
  readonly rejected: string | null;
}

/** One move of the reader: what it amended, what was before, and what was typed and not taken. */
export interface Move {
  readonly amendments: readonly Amendment[];
  readonly before: readonly Before[];
  readonly draftsBefore: Drafts;
  readonly draftsAfter: Drafts;
}

/** What is kept of a sheet. */
export interface KeptSheet {
  readonly moves: readonly (readonly Amendment[])[];
  readonly drafts: readonly Draft[];
}
