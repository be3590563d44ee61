import * as arquero from 'arquero';
import * as library from '../../index.js';
import { NodeHost } from '../../kernel/host/node-host.js';
import { isLocalPath } from '../../kernel/modules/local-path.js';
import * as tslab from '../../kernel/modules/tslab-api.js';

/** Modules that stand in the sandbox's own file; arquero among them, so that its tables are those of the library. */
const MODULES: Readonly<Record<string, object>> = { 'cocked-hat': library, arquero, tslab };

/** Runs cells of published and returned notebooks, which stand alone: they import no file beside them. */
export class SandboxHost extends NodeHost {
  /** @throws Error for a local file, since no edition could carry it */
  override async importModule(specifier: string): Promise<object> {
    if (isLocalPath(specifier))
      throw new Error(
        `'${specifier}' is a file beside the notebook, and a notebook that is published or handed in stands alone: ` +
          'write what it holds into a cell',
      );
    const own = Object.hasOwn(MODULES, specifier) ? MODULES[specifier] : undefined;
    return own ?? super.importModule(specifier);
  }
}
