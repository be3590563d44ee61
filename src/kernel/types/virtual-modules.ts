import fs from 'node:fs';
import path from 'node:path';
import type ts from 'typescript';
import { GLOBALS_DECLARATION } from '../../cells/types/globals-declaration.js';
import { packageRoot } from '../modules/package-root.js';

/** What the kernel adds to the global scope is declared behind Node's own: read once, not with each cell. */
const NODE_TYPES = /@types\/node\/(ts[\d.]+\/)?index\.d\.ts$/;

/**
 * Lets the type engine find our own library, and the packages that come with it, from notebooks in
 * any folder: after every real `node_modules`, it sees one at the root of the file system.
 */
export function installVirtualModules(TS: typeof ts, cwd: string): void {
  const { sys } = TS;
  // The code stands in one bundle; what it reads beside itself is still in the packages.
  const compiler = '@tslab/typescript-for-tslab/lib/typescript.js';
  sys.getExecutingFilePath = () => path.join(modulesFolder(compiler), compiler);
  Object.assign(globalThis, { tslabFolder: path.join(modulesFolder('tslab'), 'tslab', 'dist') });
  // TypeScript would remember the folder in which it was loaded.
  sys.getCurrentDirectory = () => process.cwd();
  const root = slashes(path.join(path.parse(cwd).root, 'node_modules'));
  const real = {
    fileExists: sys.fileExists,
    readFile: sys.readFile,
    directoryExists: sys.directoryExists,
    getDirectories: sys.getDirectories,
    realpath: sys.realpath,
  };
  const place = (file: string): string => {
    if (file !== root && !file.startsWith(`${root}/`)) return file;
    if (fs.existsSync(file)) return file;
    const rest = file.slice(root.length + 1);
    if (rest === 'cocked-hat' || rest.startsWith('cocked-hat/'))
      return path.join(packageRoot(), rest.slice('cocked-hat'.length));
    return path.join(modulesFolder(rest), rest);
  };
  sys.fileExists = (file) => real.fileExists(place(file));
  sys.readFile = (file, encoding) => {
    const text = withTypesField(file, real.readFile(place(file), encoding));
    return text !== undefined && NODE_TYPES.test(file) ? text + GLOBALS_DECLARATION : text;
  };
  sys.directoryExists = (folder) => real.directoryExists(place(folder));
  // Only Node's own types are taken in without being imported: each further package costs time.
  sys.getDirectories = (folder) =>
    folder.endsWith('node_modules/@types') ? ['node'] : real.getDirectories(place(folder));
  sys.realpath = (file) => (file.startsWith(`${root}/`) ? file : (real.realpath?.(file) ?? file));
}

/** The `node_modules` that holds a package we depend on: ours, or the one we are installed in. */
function modulesFolder(rest: string): string {
  const own = path.join(packageRoot(), 'node_modules');
  const name = rest.split('/')[0] ?? '';
  return fs.existsSync(path.join(own, name)) ? own : path.dirname(packageRoot());
}

/** TypeScript 5.0.4 in tslab's set-up does not read `exports`; the types named there are put where it looks. */
function withTypesField(file: string, text: string | undefined): string | undefined {
  if (text === undefined || !/\/node_modules\/(@[^/]+\/)?[^/]+\/package\.json$/.test(file))
    return text;
  try {
    const manifest = JSON.parse(text) as Record<string, unknown>;
    if (manifest['types'] || manifest['typings']) return text;
    const types = typesIn((manifest['exports'] as Record<string, unknown> | undefined)?.['.']);
    return types ? JSON.stringify({ ...manifest, types }) : text;
  } catch {
    return text;
  }
}

function typesIn(entry: unknown): string | null {
  if (typeof entry !== 'object' || entry === null) return null;
  const conditions = entry as Record<string, unknown>;
  if (typeof conditions['types'] === 'string') return conditions['types'];
  for (const key of ['import', 'node', 'default', 'require']) {
    const found = typesIn(conditions[key]);
    if (found) return found;
  }
  return null;
}

const slashes = (file: string): string => file.replaceAll('\\', '/');
