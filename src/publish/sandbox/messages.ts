import type { CellEvent, Outcome } from '../../cells/index.js';

/** To the process that runs cells. */
export interface ToSandbox {
  readonly cell: string;
  readonly label: string;
  readonly code: string;
  /** Whether the values of names that the cell makes are wanted, as JSON. */
  readonly keep: boolean;
}

export type FromSandbox =
  | { readonly type: 'ready' }
  | { readonly type: 'event'; readonly event: CellEvent }
  | { readonly type: 'checked'; readonly feedback: unknown }
  | {
      readonly type: 'done';
      readonly cell: string;
      readonly outcome: Outcome;
      /** Name to JSON text; a value that has none is left out. */
      readonly values: Readonly<Record<string, string>>;
    };
