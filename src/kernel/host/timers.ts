import { MessageChannel } from 'node:worker_threads';
import nodeTimers from 'node:timers';
import timerPromises from 'node:timers/promises';
import { syncBuiltinESMExports } from 'node:module';
import { promisify } from 'node:util';
import type { Run } from '../../cells/index.js';
import { KeyboardInterrupt } from '../../cells/index.js';

type Callback = (...args: unknown[]) => void;

interface Pending {
  stopped: boolean;
  readonly run: Run | undefined;
  readonly call: () => void;
  readonly stop: () => void;
  /** Rejects the promise of a timer from `timers/promises`. */
  readonly fail?: (reason: unknown) => void;
}

/** What the timers need of the host. */
export interface TimerContext {
  currentRun(): Run | undefined;
  inRun<T>(run: Run, body: () => T): T;
  report(thrown: unknown): void;
}

const native = {
  clearTimeout: globalThis.clearTimeout,
  clearImmediate: globalThis.clearImmediate,
  setTimeout: globalThis.setTimeout,
  setInterval: globalThis.setInterval,
  setImmediate: globalThis.setImmediate,
};

/**
 * Timers that cells use. Their callbacks run from a message port, since Node does not survive an
 * interrupt inside its own timer loop; they belong to the cell that started them, which gets their
 * errors, and an interrupt of that cell stops them.
 */
export class CellTimers {
  readonly #pending = new Set<Pending>();
  readonly #due: Pending[] = [];
  readonly #byHandle = new WeakMap<object, Pending>();
  readonly #channel = new MessageChannel();

  constructor(private readonly context: TimerContext) {
    this.#channel.port1.on('message', () => this.#fire());
    this.#channel.port1.unref();
  }

  install(): void {
    const timeout = this.#starter(native.setTimeout, true);
    const interval = this.#starter(native.setInterval, false);
    const immediate = this.#immediate();
    const wait = (ms?: number, value?: unknown, options?: { signal?: AbortSignal }) =>
      this.#promise(timeout, ms, value, options?.signal);
    const turn = (value?: unknown, options?: { signal?: AbortSignal }) =>
      this.#promise((call: Callback) => immediate(call), 0, value, options?.signal);
    Object.defineProperty(timeout, promisify.custom, { value: wait });
    Object.defineProperty(immediate, promisify.custom, { value: turn });
    const set = {
      setTimeout: timeout,
      setInterval: interval,
      setImmediate: immediate,
      clearTimeout: this.#clearer(native.clearTimeout),
      clearInterval: this.#clearer(native.clearTimeout),
      clearImmediate: this.#clearer(native.clearImmediate),
    };
    Object.assign(globalThis, set);
    Object.assign(nodeTimers, set);
    Object.assign(timerPromises, { setTimeout: wait, setImmediate: turn });
    syncBuiltinESMExports();
  }

  /** Stops all timers that a cell has started. */
  stop(run: Run): void {
    for (const timer of [...this.#pending]) {
      if (timer.run?.id !== run.id) continue;
      timer.stop();
      timer.stopped = true;
      this.#pending.delete(timer);
      timer.fail?.(new KeyboardInterrupt());
    }
  }

  #starter(start: typeof native.setTimeout | typeof native.setInterval, once: boolean) {
    return (callback: Callback, ms?: number, ...args: unknown[]) => {
      if (typeof callback !== 'function')
        throw new TypeError('The "callback" argument must be of type function.');
      const timer = this.#track(callback, args, () => native.clearTimeout(handle));
      const handle = start(() => {
        if (once) this.#pending.delete(timer);
        this.#post(timer);
      }, ms);
      this.#byHandle.set(handle, timer);
      return named(handle, once ? 'Timeout' : 'Interval');
    };
  }

  #immediate() {
    return (callback: Callback, ...args: unknown[]) => {
      const timer = this.#track(callback, args, () => native.clearImmediate(handle));
      const handle = native.setImmediate(() => {
        this.#pending.delete(timer);
        this.#post(timer);
      });
      this.#byHandle.set(handle, timer);
      return named(handle, 'Immediate');
    };
  }

  /** A timer that is due but has not been called can still be cleared. */
  #clearer<T>(clear: (handle: T) => void) {
    return (handle: T): void => {
      clear(handle);
      const timer = typeof handle === 'object' && handle ? this.#byHandle.get(handle) : undefined;
      if (!timer) return;
      timer.stopped = true;
      this.#pending.delete(timer);
    };
  }

  #track(callback: Callback, args: unknown[], stop: () => void): Pending {
    const run = this.context.currentRun();
    const timer = { run, call: () => callback(...args), stop, stopped: false };
    this.#pending.add(timer);
    return timer;
  }

  #post(timer: Pending): void {
    this.#due.push(timer);
    this.#channel.port2.postMessage(null);
  }

  #fire(): void {
    const timer = this.#due.shift();
    if (!timer || timer.stopped) return;
    try {
      if (timer.run) this.context.inRun(timer.run, timer.call);
      else timer.call();
    } catch (thrown) {
      this.context.report(thrown);
    }
  }

  #promise(
    start: (call: Callback, ms?: number) => unknown,
    ms: number | undefined,
    value: unknown,
    signal: AbortSignal | undefined,
  ): Promise<unknown> {
    return new Promise((resolve, reject) => {
      if (signal?.aborted) return reject(signal.reason);
      start(() => resolve(value), ms);
      signal?.addEventListener('abort', () => reject(signal.reason), { once: true });
    });
  }
}

/** Node would print a timer with all its inner workings. */
function named<T extends object>(handle: T, name: string): T {
  const value = (): string => `[${name}]`;
  return Object.defineProperty(handle, Symbol.for('nodejs.util.inspect.custom'), { value });
}
