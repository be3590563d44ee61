import { limitOutput, type CellEvent, type CellHost, type Run } from '../../cells/index.js';

/** Modules that cells in a page can import: they are loaded with the page or not at all. */
export type Modules = Readonly<Record<string, () => object | Promise<object>>>;

/** Runs cells in a Web Worker. */
export class WorkerHost implements CellHost {
  readonly meta = Object.freeze({ url: 'page:cell.ts' });
  readonly emit: CellHost['emit'];
  #current: Run | undefined;
  #latest: Run | undefined;
  /** Finds the run that a stack trace belongs to. */
  runOfStack: (stack: string) => Run | undefined = () => undefined;

  constructor(
    private readonly modules: Modules,
    send: (event: CellEvent, run: Run | undefined) => void,
  ) {
    this.emit = limitOutput(send);
  }

  evaluate(js: string, file: string): unknown {
    return (0, eval)(`${js}\n//# sourceURL=${file}`);
  }

  async importModule(specifier: string): Promise<object> {
    const load = Object.hasOwn(this.modules, specifier) ? this.modules[specifier] : undefined;
    if (load) return load();
    const known = Object.keys(this.modules).join(', ');
    throw new Error(
      `the module '${specifier}' is not in this page; a notebook in the page can import ${known}`,
    );
  }

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
}

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
