import type { CellEvent } from './events.js';

/** The run of one cell: `label` is what errors call it, as in `In[3]`. */
export interface Run {
  readonly id: string;
  readonly label: string;
}

/** What a host (Node, a Web Worker) gives a session. */
export interface CellHost {
  /** Runs a script in the global scope and returns its value; `file` names it in stack traces. */
  evaluate(js: string, file: string): unknown;
  importModule(specifier: string): Promise<object>;
  /** What `import.meta` is in a cell. */
  readonly meta: Readonly<Record<string, unknown>>;
  emit(event: CellEvent, run: Run | undefined): void;
  /** Calls `body` so that `currentRun` returns `run` in it and in what it starts. */
  inRun<T>(run: Run, body: () => T): T;
  currentRun(): Run | undefined;
}
