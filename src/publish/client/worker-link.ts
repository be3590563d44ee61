import type { CellEvent, Outcome } from '../../cells/index.js';
import type { FromWorker, ToWorker } from './messages.js';

export type EventListener = (event: CellEvent) => void;

/** The worker that runs this page's cells, and a way to stop it. */
export class WorkerLink {
  #worker: Worker | undefined;
  #count = 0;
  #life = 0;
  readonly #pending = new Map<
    string,
    { done: (o: Outcome | null) => void; event: EventListener }
  >();

  /** @param script the text of this very script, which is page and worker in one */
  constructor(
    private readonly script: string,
    private readonly ephemeris: Uint8Array | null,
    private readonly ephemerisName: string,
  ) {}

  /** Whether cells that have run can be relied on: a stopped worker has forgotten them. */
  get alive(): boolean {
    return this.#worker !== undefined;
  }
  /** Number of the present worker, from 1; what ran in an earlier one is forgotten. */
  get life(): number {
    return this.#life;
  }
  start(): void {
    if (this.#worker) return;
    this.#life += 1;
    const url = URL.createObjectURL(new Blob([this.script], { type: 'text/javascript' }));
    this.#worker = new Worker(url);
    URL.revokeObjectURL(url);
    this.#worker.onmessage = ({ data }: MessageEvent<FromWorker>) => this.#receive(data);
    this.#post({ type: 'start', ephemeris: this.ephemeris, name: this.ephemerisName });
  }
  /** Runs a cell; the outcome is null when it was stopped. */
  run(code: string, event: EventListener): Promise<Outcome | null> {
    this.start();
    const run = String(++this.#count);
    return new Promise((done) => {
      this.#pending.set(run, { done, event });
      this.#post({ type: 'run', run, label: `In[${run}]`, code });
    });
  }
  /** Ends the worker, whatever it is doing; all values of cells are gone. */
  stop(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#count = 0;
    for (const { done } of this.#pending.values()) done(null);
    this.#pending.clear();
  }

  #post(message: ToWorker): void {
    this.#worker?.postMessage(message);
  }
  #receive(message: FromWorker): void {
    if (message.type === 'ready') return;
    const pending = this.#pending.get(message.run ?? '');
    if (!pending) return;
    if (message.type === 'event') pending.event(message.event);
    else {
      this.#pending.delete(message.run);
      pending.done(message.outcome);
    }
  }
}
