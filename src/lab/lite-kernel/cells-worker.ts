import type { FromWorker } from './messages.js';

declare const WORKER_FILE: string;

/** A worker that runs cells, and when it has read its program. */
export interface CellsWorker {
  readonly worker: Worker;
  readonly ready: Promise<void>;
}

let spare: CellsWorker | null = null;

/** A worker without a kernel ends after so long: the page's notebook has another kernel. */
const SPARE_MS = 60_000;

/**
 * Starts a worker while the page itself is still starting, if the page is that of a notebook: it reads its program in
 * the seconds until the cells show, and the first one need not wait for it.
 */
export function startAhead(base: string, address: string): void {
  if (!/\.ipynb\b/.test(address)) return;
  const ahead = (spare = startWorker(base));
  setTimeout(() => {
    if (spare !== ahead) return;
    spare = null;
    ahead.worker.terminate();
  }, SPARE_MS);
}

/** The worker started ahead, or a new one. */
export function cellsWorker(base: string): CellsWorker {
  const taken = spare ?? startWorker(base);
  spare = null;
  return taken;
}

function startWorker(base: string): CellsWorker {
  const worker = new Worker(new URL(WORKER_FILE, base));
  const ready = new Promise<void>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
      if (data.type === 'ready') resolve();
    };
  });
  return { worker, ready };
}
