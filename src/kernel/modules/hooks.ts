import fs from 'node:fs';
import type { LoadHook, ResolveHook } from 'node:module';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { transform } from 'sucrase';
import { refuseNamespaces } from '../../cells/compile/refuse-namespaces.js';
import { contentVersion } from './content-version.js';
import { isLocalPath } from './local-path.js';
import { findLocalFile } from './local-file.js';
import { ownModuleUrl } from './own-modules.js';
import { packageRoot } from './package-root.js';
import path from 'node:path';

const PACKAGE = pathToFileURL(path.join(packageRoot(), 'cell.mjs')).href;

/** Finds local files without their extension, and gives changed ones a new address. */
export const resolve: ResolveHook = async (specifier, context, next) => {
  const own = ownModuleUrl(specifier);
  if (own) return { url: own, format: 'module', shortCircuit: true };
  const parent = context.parentURL ?? '';
  const ours = parent.startsWith('file:') && !parent.includes('/node_modules/');
  if (ours && isLocalPath(specifier)) {
    const file = findLocalFile(fileURLToPath(localUrl(specifier, parent)));
    if (file && !file.startsWith(path.join(packageRoot(), 'dist'))) {
      const url = `${pathToFileURL(file).href}?v=${contentVersion(file)}`;
      if (isTypeScript(file)) return { url, format: 'module', shortCircuit: true };
      return next(url, context);
    }
  }
  try {
    return await next(specifier, context);
  } catch (error) {
    if (!ours || isLocalPath(specifier)) throw error;
    return await next(specifier, { ...context, parentURL: PACKAGE });
  }
};

/** Local TypeScript files lose their types on the way in; their lines stay. */
export const load: LoadHook = async (url, context, next) => {
  const file = url.startsWith('file:') ? fileURLToPath(url.replace(/\?.*$/, '')) : '';
  if (!isTypeScript(file)) return next(url, context);
  const source = fs.readFileSync(file, 'utf8');
  refuseIn(file, source);
  const { code } = transform(source, {
    transforms: ['typescript'],
    disableESTransforms: true,
    filePath: file,
  });
  return { format: 'module', source: code, shortCircuit: true };
};

/** A namespace of values would be lost; the error names the file and the line. */
function refuseIn(file: string, source: string): void {
  try {
    refuseNamespaces(source);
  } catch (error) {
    const { message, line, column } = error as Error & { line: number; column: number };
    throw new SyntaxError(`${file}:${line}:${column}: ${message}`, { cause: error });
  }
}

const isTypeScript = (file: string): boolean => /\.m?ts$/.test(file);

function localUrl(specifier: string, parent: string): URL {
  if (specifier.startsWith('file:')) return new URL(specifier);
  return /^[A-Za-z]:[\\/]/.test(specifier) ? pathToFileURL(specifier) : new URL(specifier, parent);
}
