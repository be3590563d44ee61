import type { Run } from './host.js';

/** Frames of the stack, as many as it takes to reach the cell that awaits. */
const FRAMES = 50;

function callStack(): string {
  const errors = Error as ErrorConstructor & { stackTraceLimit?: number };
  const limit = errors.stackTraceLimit ?? 10;
  errors.stackTraceLimit = FRAMES;
  const { stack = '' } = new Error();
  errors.stackTraceLimit = limit;
  return stack;
}

/** Keeps whose code runs, so that output goes to its cell. */
export class CurrentRun {
  /** The run whose code is on the stack. Async hooks would know more, but no interrupt survives them. */
  #current: Run | undefined;
  /** The run of the newest cell, for what happens outside any. */
  #latest: Run | undefined;
  /** Finds the run that a stack trace belongs to. */
  runOfStack: (stack: string) => Run | undefined = () => undefined;

  inRun<T>(run: Run, body: () => T): T {
    const outer = this.#current;
    this.#current = run;
    this.#latest = run;
    try {
      return body();
    } finally {
      this.#current = outer;
    }
  }

  currentRun(): Run | undefined {
    return this.#current ?? this.runOfStack(callStack()) ?? this.#latest;
  }

  /** After an interrupt no code is on the stack, whatever was there before. */
  unwind(): void {
    this.#current = undefined;
  }
}
