import type { CellEvent, Outcome, TypeEngine } from '../../cells/index.js';
import { remoteTypeEngine } from '../../cells/types/remote-type-engine.js';
import { cellsWorker } from './cells-worker.js';
import type { CommKind, FromWorker, ToWorker } from './messages.js';

declare const TYPES_FILE: string;

/** How long types wait for a first cell to be run. */
const TYPES_WAIT_MS = 3000;

type OnEvent = (run: string | undefined, event: CellEvent) => void;

/** The page's line to the worker that runs cells, and to the one that judges types. */
export class WorkerLink {
  /** Answers completion and inspection, once TypeScript has been loaded. */
  types: TypeEngine | null = null;
  readonly #worker: Worker;
  #typesWorker: Worker | null = null;
  #soon: ReturnType<typeof setTimeout> | undefined;
  #ended = false;
  readonly #waiting = new Map<string, (outcome: Outcome | null) => void>();

  constructor(
    private readonly base: string,
    private readonly onEvent: OnEvent,
  ) {
    const { worker, ready } = cellsWorker(base);
    this.#worker = worker;
    // What comes before the program is read waits in the worker.
    void ready.then(() => {
      worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
        if (data.type !== 'ready') this.#receive(data);
      };
      this.#loadTypesSoon();
    });
  }

  run(run: string, label: string, code: string): Promise<Outcome> {
    if (!this.#typesWorker) this.#loadTypesSoon();
    const outcome = this.#ask(run, { type: 'run', run, label, code }) as Promise<Outcome>;
    return outcome.finally(() => this.#loadTypes());
  }

  comm(
    run: string,
    kind: CommKind,
    content: { comm_id: string; data: unknown },
    rest: {
      metadata: Record<string, unknown>;
      buffers: readonly Uint8Array[];
    },
  ): Promise<unknown> {
    return this.#ask(run, { type: 'comm', run, kind, content, ...rest });
  }

  /** Ends both workers; what was running ends as interrupted. */
  end(): void {
    this.#ended = true;
    clearTimeout(this.#soon);
    this.#worker.terminate();
    this.#typesWorker?.terminate();
    const evalue =
      'the page stopped the kernel, and with it the values of all cells; run them again';
    const error = {
      ename: 'KeyboardInterrupt',
      evalue,
      traceback: [`KeyboardInterrupt: ${evalue}`],
    };
    for (const resolve of this.#waiting.values()) resolve({ status: 'error', error });
    this.#waiting.clear();
  }

  #ask(run: string, message: ToWorker): Promise<Outcome | null> {
    return new Promise((resolve) => {
      this.#waiting.set(run, resolve);
      this.#worker.postMessage(message);
    });
  }

  #receive(message: Exclude<FromWorker, { type: 'ready' }>): void {
    if (message.type === 'event') return this.onEvent(message.run, message.event);
    const resolve = this.#waiting.get(message.run);
    this.#waiting.delete(message.run);
    resolve?.(message.type === 'done' ? message.outcome : null);
  }

  /**
   * TypeScript is large, and while it is loaded the page and the first cell wait for the processor: it comes behind
   * the first result, or once nobody has run a cell for a while.
   */
  #loadTypesSoon(): void {
    clearTimeout(this.#soon);
    this.#soon = setTimeout(() => this.#loadTypes(), TYPES_WAIT_MS);
  }

  #loadTypes(): void {
    clearTimeout(this.#soon);
    if (this.#typesWorker || this.#ended) return;
    this.#typesWorker = new Worker(new URL(TYPES_FILE, this.base));
    const cells = new MessageChannel();
    const page = new MessageChannel();
    this.#typesWorker.postMessage({ ports: [cells.port1, page.port1] }, [cells.port1, page.port1]);
    this.#worker.postMessage({ type: 'types', port: cells.port2 } satisfies ToWorker, [
      cells.port2,
    ]);
    const listen = (listener: (message: unknown) => void): void => {
      page.port2.onmessage = ({ data }) => listener(data);
    };
    this.types = remoteTypeEngine({ post: (m) => page.port2.postMessage(m), listen });
  }
}
