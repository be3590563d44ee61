import type { CellEvent, CommContent, Outcome } from '../../cells/index.js';

export type CommKind = 'comm_open' | 'comm_msg' | 'comm_close';

/** What the page tells the worker that runs cells. */
export type ToWorker =
  | { readonly type: 'run'; readonly run: string; readonly label: string; readonly code: string }
  | { readonly type: 'types'; readonly port: MessagePort }
  | {
      readonly type: 'comm';
      readonly run: string;
      readonly kind: CommKind;
      readonly content: CommContent;
      readonly metadata: Record<string, unknown>;
      readonly buffers: readonly Uint8Array[];
    };

/** What the worker tells the page. */
export type FromWorker =
  | { readonly type: 'ready' }
  | { readonly type: 'event'; readonly run: string | undefined; readonly event: CellEvent }
  | { readonly type: 'done'; readonly run: string; readonly outcome: Outcome }
  | { readonly type: 'comm-done'; readonly run: string };
