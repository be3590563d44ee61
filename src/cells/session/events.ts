import type { Bundle } from '../values/bundle.js';
import type { CellError } from '../errors/cell-error.js';

/** What a cell sends while it runs, or later from a timer or promise it started. */
export type CellEvent =
  | { readonly type: 'stream'; readonly name: 'stdout' | 'stderr'; readonly text: string }
  | ({ readonly type: 'display'; readonly id?: string; readonly update: boolean } & Bundle)
  | { readonly type: 'clear'; readonly wait: boolean }
  | { readonly type: 'error'; readonly error: CellError }
  | {
      readonly type: 'comm';
      readonly kind: 'comm_open' | 'comm_msg' | 'comm_close';
      readonly content: CommContent;
      readonly metadata?: Record<string, unknown>;
      readonly buffers?: readonly Uint8Array[];
    };

export interface CommContent {
  readonly comm_id: string;
  readonly target_name?: string;
  readonly data: unknown;
}
