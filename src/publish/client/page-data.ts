import type { Role } from '../source/roles.js';

/** What a published page carries of its notebook, as JSON in the page. */
export interface PageData {
  readonly edition: EditionFacts;
  readonly cells: readonly PageCell[];
}

export interface PageCell {
  readonly id: string;
  readonly kind: 'code' | 'markdown';
  readonly role: Role;
  readonly source: string;
  /** The author collapsed the source: it shows when the reader opens it. */
  readonly folded?: true;
  /** Pictures of a text cell, name to `data:` address; they stand in the page's text only. */
  readonly pictures?: Readonly<Record<string, string>>;
  /** Outputs of the run at publishing, by MIME type, richest first. */
  readonly outputs: readonly PageOutput[];
}

export type PageOutput =
  | { readonly type: 'data'; readonly data: Readonly<Record<string, unknown>> }
  | { readonly type: 'stream'; readonly name: 'stdout' | 'stderr'; readonly text: string }
  | { readonly type: 'error'; readonly traceback: string };

/** What an edition says of itself. */
export interface EditionFacts {
  readonly notebook: string;
  readonly title: string;
  readonly kind: 'student' | 'teacher';
  /** First digits of the checksum of the edition's notebook: names files and answers. */
  readonly version: string;
  readonly library: string;
  /** File of data/ to SHA-256. */
  readonly data: Readonly<Record<string, string>>;
  readonly licence: string;
  readonly cautions: readonly string[];
}
