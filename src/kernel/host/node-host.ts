import { AsyncLocalStorage } from 'node:async_hooks';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import vm from 'node:vm';
import type { CellEvent, CellHost, Run } from '../../cells/index.js';
import { ModuleImporter } from '../modules/importer.js';

/** Runs cells in the main thread of a Node process. */
export class NodeHost implements CellHost {
  readonly meta: Readonly<Record<string, unknown>>;
  readonly #runs = new AsyncLocalStorage<Run>();
  readonly #importer: ModuleImporter;
  /** The run of the newest cell, for what happens outside any. */
  #latest: Run | undefined;

  constructor(
    readonly cwd: string,
    private readonly send: (event: CellEvent, run: Run | undefined) => void,
  ) {
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

  emit(event: CellEvent, run: Run | undefined): void {
    this.send(event, run);
  }

  inRun<T>(run: Run, body: () => T): T {
    this.#latest = run;
    return this.#runs.run(run, body);
  }

  currentRun(): Run | undefined {
    return this.#runs.getStore() ?? this.#latest;
  }
}
