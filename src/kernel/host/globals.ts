import { Comms, makeConsole, makeDisplay, type CellHost } from '../../cells/index.js';

/** What cells find in the global scope besides JavaScript's and Node's own. */
export interface KernelGlobals {
  readonly comms: Comms;
}

type Prompt = (question: string, password: boolean) => string;

/** Gives cells `display`, `prompt`, `kernel` and a `console` that writes to their output. */
export function installGlobals(host: CellHost, ask: Prompt): KernelGlobals {
  const comms = new Comms(host);
  const write = (name: 'stdout' | 'stderr', text: string): void =>
    host.emit({ type: 'stream', name, text }, host.currentRun());
  Object.assign(console, makeConsole(write));
  captureStreams(write);
  const prompt = Object.assign((question: unknown = '') => ask(String(question), false), {
    password: (question: unknown = '') => ask(String(question), true),
  });
  define({ display: makeDisplay(host), prompt, kernel: { comms } });
  return { comms };
}

function define(values: Record<string, unknown>): void {
  for (const [name, value] of Object.entries(values))
    Object.defineProperty(globalThis, name, { value, writable: true, configurable: true });
}

/** What is written to the process's own streams becomes output of the cell as well. */
function captureStreams(write: (name: 'stdout' | 'stderr', text: string) => void): void {
  for (const name of ['stdout', 'stderr'] as const) {
    const decoder = new TextDecoder();
    const replacement = (
      chunk: string | Uint8Array,
      encoding?: unknown,
      done?: (error?: Error | null) => void,
    ): boolean => {
      write(name, typeof chunk === 'string' ? chunk : decoder.decode(chunk, { stream: true }));
      const after = typeof encoding === 'function' ? encoding : done;
      if (after) queueMicrotask(() => after());
      return true;
    };
    process[name].write = replacement as typeof process.stdout.write;
  }
}
