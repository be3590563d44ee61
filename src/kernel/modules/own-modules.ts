import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { packageRoot } from './package-root.js';

/** Modules that notebooks import from any folder, wherever this package is installed. */
const OWN: Readonly<Record<string, string>> = {
  'cocked-hat': 'dist/index.js',
  tslab: 'dist/kernel/tslab-api.js',
};

/** The URL of our own library or of the stand-in for tslab's API; null for any other module. */
export function ownModuleUrl(specifier: string): string | null {
  const file = OWN[specifier];
  return file ? pathToFileURL(path.join(packageRoot(), file)).href : null;
}
