import type { Run } from '../../cells/index.js';

type Callback = (...args: unknown[]) => void;

interface TimerContext {
  currentRun(): Run | undefined;
  inRun<T>(run: Run, body: () => T): T;
  report(thrown: unknown): void;
}

/** Timers whose output and errors belong to the cell that started them. */
export function installTimers(context: TimerContext): void {
  const scope = globalThis as unknown as Record<
    string,
    (call: Callback, ...rest: never[]) => unknown
  >;
  for (const name of ['setTimeout', 'setInterval']) {
    const start = scope[name]?.bind(globalThis);
    if (!start) continue;
    scope[name] = (callback, ms: number, ...args: unknown[]) => {
      const run = context.currentRun();
      const call = (): void => {
        try {
          if (run) context.inRun(run, () => callback(...args));
          else callback(...args);
        } catch (thrown) {
          context.report(thrown);
        }
      };
      return start(call, ...([ms] as never[]));
    };
  }
}
