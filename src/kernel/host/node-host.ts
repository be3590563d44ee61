import path from 'node:path';
import { pathToFileURL } from 'node:url';
import vm from 'node:vm';
import { limitOutput, type CellEvent, type CellHost, type Run } from '../../cells/index.js';
import { ModuleImporter } from '../modules/importer.js';

/** Runs cells in the main thread of a Node process. */
export class NodeHost implements CellHost {
  readonly meta: Readonly<Record<string, unknown>>;
  readonly emit: CellHost['emit'];
  readonly #importer: ModuleImporter;
  /** The run whose code is on the stack. Async hooks would know more, but no interrupt survives them. */
  #current: Run | undefined;
  /** The run of the newest cell, for what happens outside any. */
  #latest: Run | undefined;
  /** Finds the run that a stack trace belongs to. */
  runOfStack: (stack: string) => Run | undefined = () => undefined;

  constructor(
    readonly cwd: string,
    send: (event: CellEvent, run: Run | undefined) => void,
  ) {
    this.emit = limitOutput(send);
    const filename = path.join(cwd, 'cell.ts');
    this.meta = { url: pathToFileURL(filename).href, filename, dirname: cwd };
    this.#importer = new ModuleImporter(cwd);
  }

  evaluate(js: string, file: string): unknown {
    const importModuleDynamically = vm.constants.USE_MAIN_CONTEXT_DEFAULT_LOADER;
    return new vm.Script(js, { filename: file, importModuleDynamically }).runInThisContext();
  }

  importModule(specifier: string): Promise<object> {
    return this.#importer.import(specifier);
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

  /** After an interrupt no code is on the stack, whatever was there before. */
  unwind(): void {
    this.#current = undefined;
  }
}

/** Frames of the stack, as many as it takes to reach the cell that awaits. */
const FRAMES = 50;

function callStack(): string {
  const limit = Error.stackTraceLimit;
  Error.stackTraceLimit = FRAMES;
  const { stack = '' } = new Error();
  Error.stackTraceLimit = limit;
  return stack;
}
