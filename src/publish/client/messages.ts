import type { CellEvent, Outcome } from '../../cells/index.js';

/** From the page to the worker that runs cells. */
export type ToWorker =
  | { readonly type: 'start'; readonly ephemeris: Uint8Array | null; readonly name: string }
  | { readonly type: 'run'; readonly run: string; readonly label: string; readonly code: string };

export type FromWorker =
  | { readonly type: 'ready' }
  | { readonly type: 'event'; readonly run: string | undefined; readonly event: CellEvent }
  | { readonly type: 'done'; readonly run: string; readonly outcome: Outcome };
