/**
 * The module-federation container that JupyterLab loads first, written by hand: it hands JupyterLab's own
 * packages to our plugins, which are an ordinary ES module.
 */
declare const MAIN_FILE: string;
declare const EXTENSION_NAME: string;

type Factory = () => unknown;
type ShareScope = Record<string, Record<string, { get(): Promise<Factory> | Factory }>>;

const base = new URL('.', (document.currentScript as HTMLScriptElement).src).href;
let scope: ShareScope = {};

/** The newest copy of a package that JupyterLab shares. */
async function shared(name: string): Promise<unknown> {
  const versions = scope[name];
  if (!versions) throw new Error(`this JupyterLab does not share the package ${name}`);
  const newest = Object.keys(versions).sort((a, b) =>
    b.localeCompare(a, undefined, { numeric: true }),
  )[0];
  const entry = newest === undefined ? undefined : versions[newest];
  if (!entry) throw new Error(`this JupyterLab shares no version of ${name}`);
  return (await entry.get())();
}

const container = {
  init(given: ShareScope): void {
    scope = given;
  },
  async get(module: string): Promise<Factory> {
    if (module !== './extension') throw new Error(`${EXTENSION_NAME} has no module ${module}`);
    const main = (await import(base + MAIN_FILE)) as {
      makePlugins(shared: (name: string) => Promise<unknown>): Promise<unknown>;
    };
    const plugins = await main.makePlugins(shared);
    return () => ({ __esModule: true, default: plugins });
  },
};

const lab = ((window as unknown as Record<string, unknown>)['_JUPYTERLAB'] ??= {}) as Record<
  string,
  unknown
>;
lab[EXTENSION_NAME] = container;
