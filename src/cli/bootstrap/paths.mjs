/** Where the project keeps things. Everything that set-up writes lies inside the checkout. */
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const windows = process.platform === 'win32';

function isRoot(folder) {
  try {
    const text = fs.readFileSync(path.join(folder, 'package.json'), 'utf8');
    return JSON.parse(text).name === 'cocked-hat';
  } catch {
    return false;
  }
}

function findRoot(folder) {
  if (isRoot(folder)) return folder;
  const above = path.dirname(folder);
  if (above === folder) throw new Error('cannot find the folder of Cocked Hat');
  return findRoot(above);
}

/** The checkout: the nearest folder above this module that holds our package.json. */
export const ROOT = findRoot(path.dirname(fileURLToPath(import.meta.url)));
/** Whether this is the installed package: built code and data alone, without what sets up and starts JupyterLab. */
export const INSTALLED = !fs.existsSync(path.join(ROOT, 'src'));
/** Built code. */
export const DIST = path.join(ROOT, 'dist');
/** The project's own Python environment. */
export const ENV = path.join(ROOT, '.env');
/** Programs of the npm packages, and ours. */
export const BIN = path.join(ROOT, 'node_modules', '.bin');
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
