/** The JupyterLite plugin: registers the kernel that runs in the page. */
import { startAhead } from './cells-worker.js';
import type { KernelSpecs, LiteServices } from './lite-services.js';
import { makeKernelClass } from './make-kernel.js';

type Shared = (name: string) => Promise<unknown>;

/** Called by the container (`../remote.ts`) with the packages that JupyterLite shares. */
export async function makePlugins(shared: Shared): Promise<object[]> {
  startAhead(import.meta.url, location.href);
  const services = (await shared('@jupyterlite/services')) as LiteServices;
  const Kernel = makeKernelClass(services, import.meta.url);
  const plugin = {
    id: 'cocked-hat-lite:kernel',
    description: 'TypeScript · Cocked Hat, running in the page',
    autoStart: true,
    requires: [services.IKernelSpecs],
    activate: (_app: unknown, specs: KernelSpecs) =>
      specs.register({
        spec: {
          name: 'cocked-hat',
          display_name: 'TypeScript · Cocked Hat',
          language: 'typescript',
          argv: [],
          resources: {},
        },
        create: async (options) => new Kernel(options),
      }),
  };
  return [plugin];
}
