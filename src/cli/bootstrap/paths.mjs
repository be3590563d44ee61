/** Where the project keeps things. Everything that set-up writes lies inside the checkout. */
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const windows = process.platform === 'win32';

/** The checkout. */
export const ROOT = fileURLToPath(new URL('../../../', import.meta.url)).replace(/[\\/]$/, '');
/** Built code. */
export const DIST = path.join(ROOT, 'dist');
/** The project's own Python environment. */
export const ENV = path.join(ROOT, '.env');
/** Where Jupyter looks for kernels and extensions inside that environment. */
export const SHARE = path.join(ENV, 'share', 'jupyter');
/** Logs and locks. */
export const CACHE = path.join(ROOT, '.cache');

/** A program inside the Python environment, e.g. `envBin('python')`. */
export function envBin(name) {
  return windows ? path.join(ENV, 'Scripts', `${name}.exe`) : path.join(ENV, 'bin', name);
}

/** A path as shown to a person: relative to the checkout when inside it. */
export function shown(file) {
  const relative = path.relative(ROOT, file);
  return relative === '' ? '.' : relative.startsWith('..') ? file : relative;
}
