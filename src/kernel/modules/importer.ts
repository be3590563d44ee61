import { register } from 'node:module';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import vm from 'node:vm';
import { packageRoot } from './package-root.js';
import { ownModuleUrl } from './own-modules.js';
import { isLocalPath } from './local-path.js';

type Import = (specifier: string) => Promise<Record<string, unknown>>;

/** Imports modules for cells, as if from a file in the notebook's folder. */
export class ModuleImporter {
  readonly #fromNotebook: Import;
  readonly #fromPackage: Import;
  #hooked = false;

  constructor(cwd: string) {
    this.#fromNotebook = importerAt(path.join(cwd, 'cell.mjs'));
    this.#fromPackage = importerAt(path.join(packageRoot(), 'cell.mjs'));
  }

  async import(specifier: string): Promise<object> {
    const own = ownModuleUrl(specifier);
    if (own) return this.#fromPackage(own);
    if (isLocalPath(specifier)) this.#hook();
    try {
      return withMembersOfDefault(await this.#fromNotebook(specifier));
    } catch (error) {
      if (!isMissingPackage(error, specifier)) throw error;
      return withMembersOfDefault(
        await this.#fromPackage(specifier).catch(() => Promise.reject(error)),
      );
    }
  }

  /** Local TypeScript files, and changes to local files, need hooks in Node's loader. */
  #hook(): void {
    if (this.#hooked) return;
    this.#hooked = true;
    register(new URL('./hooks.js', import.meta.url));
  }
}

function importerAt(file: string): Import {
  const script = new vm.Script('(specifier) => import(specifier)', {
    filename: pathToFileURL(file).href,
    importModuleDynamically: vm.constants.USE_MAIN_CONTEXT_DEFAULT_LOADER,
  });
  return script.runInThisContext() as Import;
}

function isMissingPackage(error: unknown, specifier: string): boolean {
  const { code } = (error ?? {}) as { code?: unknown };
  return code === 'ERR_MODULE_NOT_FOUND' && !isLocalPath(specifier);
}

/** A CommonJS module's members can be imported by name even where Node cannot see them beforehand. */
function withMembersOfDefault(module: Record<string, unknown>): object {
  const whole = module['default'];
  if (whole === null || (typeof whole !== 'object' && typeof whole !== 'function')) return module;
  if ('__esModule' in module || !Object.keys(whole).some((key) => !(key in module))) return module;
  const members = whole as Record<string | symbol, unknown>;
  return new Proxy(module, {
    get: (target, key) => (key in target ? target[key as string] : members[key]),
    has: (target, key) => key in target || key in members,
  });
}
