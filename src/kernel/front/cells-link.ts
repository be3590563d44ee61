import type { MessagePort } from 'node:worker_threads';
import type { Outcome } from '../../cells/index.js';
import { Interrupter } from './interrupter.js';
import { FLAG, INPUT, type FromCells, type ToCells } from '../messages.js';

/** The front's end of the line to the thread that runs cells. */
export class CellsLink {
  readonly #waiting = new Map<string, (outcome: Outcome | null) => void>();
  readonly #interrupter: Interrupter;

  constructor(
    private readonly port: MessagePort,
    private readonly flags: Int32Array,
    private readonly answers: MessagePort,
    private readonly onOther: (message: FromCells) => void,
  ) {
    this.#interrupter = new Interrupter(flags);
    port.on('message', (message: FromCells) => this.#receive(message));
  }

  run(run: string, label: string, code: string): Promise<Outcome> {
    return this.#ask(run, { type: 'run', run, label, code }) as Promise<Outcome>;
  }

  comm(message: Extract<ToCells, { type: 'comm' }>): Promise<unknown> {
    return this.#ask(message.run, message);
  }

  exit(): void {
    this.#post({ type: 'exit' });
  }

  /** Answers a cell that waits for input; null refuses it. */
  answer(value: string | null): void {
    if (value !== null) this.answers.postMessage(value);
    this.#setFlag(FLAG.input, value === null ? INPUT.refused : INPUT.answered);
  }

  /** True while the running cell is broken off. */
  get isInterrupting(): boolean {
    return this.#interrupter.isBreakingOff;
  }

  /** Stops the running cell: by asking, and if it does not listen, by breaking it off. */
  interrupt(run: string | undefined): void {
    this.#interrupter.prepare();
    this.#setFlag(FLAG.input, INPUT.interrupted);
    this.#post({ type: 'interrupt', run });
    this.#interrupter.start();
  }

  #ask(run: string, message: ToCells): Promise<Outcome | null> {
    return new Promise((resolve) => {
      this.#waiting.set(run, resolve);
      this.#post(message);
    });
  }

  #receive(message: FromCells): void {
    if (message.type !== 'done' && message.type !== 'comm-done') return this.onOther(message);
    const resolve = this.#waiting.get(message.run);
    this.#waiting.delete(message.run);
    resolve?.(message.type === 'done' ? message.outcome : null);
  }

  #post(message: ToCells): void {
    this.port.postMessage(message);
  }

  #setFlag(index: number, value: number): void {
    Atomics.store(this.flags, index, value);
    Atomics.notify(this.flags, index);
  }
}
