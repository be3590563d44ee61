import path from 'node:path';
import { pathToFileURL } from 'node:url';
import vm from 'node:vm';
import {
  CurrentRun,
  limitOutput,
  type CellEvent,
  type CellHost,
  type Run,
} from '../../cells/index.js';
import { ModuleImporter } from '../modules/importer.js';

/** Runs cells in the main thread of a Node process. */
export class NodeHost extends CurrentRun implements CellHost {
  readonly meta: Readonly<Record<string, unknown>>;
  readonly emit: CellHost['emit'];
  readonly #importer: ModuleImporter;

  constructor(
    readonly cwd: string,
    send: (event: CellEvent, run: Run | undefined) => void,
  ) {
    super();
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
}
