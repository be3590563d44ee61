import type { CellEvent, CommContent, Outcome } from '../cells/index.js';

/** What the thread that runs cells tells the thread that speaks to Jupyter. */
export type FromCells =
  | { readonly type: 'event'; readonly run: string | undefined; readonly event: CellEvent }
  | { readonly type: 'done'; readonly run: string; readonly outcome: Outcome }
  | { readonly type: 'comm-done'; readonly run: string }
  | {
      readonly type: 'prompt';
      readonly run: string | undefined;
      readonly prompt: string;
      readonly password: boolean;
    }
  | { readonly type: 'signal' };

/** What the thread that speaks to Jupyter tells the thread that runs cells. */
export type ToCells =
  | { readonly type: 'run'; readonly run: string; readonly label: string; readonly code: string }
  | { readonly type: 'interrupt'; readonly run: string | undefined }
  | {
      readonly type: 'comm';
      readonly run: string;
      readonly kind: 'comm_open' | 'comm_msg' | 'comm_close';
      readonly content: CommContent;
      readonly metadata: Record<string, unknown>;
      readonly buffers: readonly Uint8Array[];
    }
  | { readonly type: 'exit' };

/** Shared words between the two threads; see `SharedFlags`. */
export const FLAG = { input: 0, interruptSeen: 1, LENGTH: 2 } as const;

/** Values of the `input` word. */
export const INPUT = { waiting: 0, answered: 1, interrupted: 2, refused: 3 } as const;
