import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { packageRoot } from './package-root.js';

/** Modules that notebooks import from any folder, wherever this package is installed. */
const OWN: Readonly<Record<string, () => string>> = {
  'cocked-hat': () => pathToFileURL(path.join(packageRoot(), 'dist', 'index.js')).href,
  tslab: () => new URL('./tslab-api.js', import.meta.url).href,
};

/** The URL of our own library or of the stand-in for tslab's API; null for any other module. */
export function ownModuleUrl(specifier: string): string | null {
  return Object.hasOwn(OWN, specifier) ? (OWN[specifier]?.() ?? null) : null;
}
