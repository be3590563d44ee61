import {
  CurrentRun,
  limitOutput,
  type CellEvent,
  type CellHost,
  type Run,
} from '../../cells/index.js';

/** Modules that cells in a page can import: they are loaded with the page or not at all. */
export type Modules = Readonly<Record<string, () => object | Promise<object>>>;

/** Runs cells in a Web Worker. */
export class WorkerHost extends CurrentRun implements CellHost {
  readonly meta = Object.freeze({ url: 'page:cell.ts' });
  readonly emit: CellHost['emit'];

  constructor(
    private readonly modules: Modules,
    send: (event: CellEvent, run: Run | undefined) => void,
  ) {
    super();
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
}
