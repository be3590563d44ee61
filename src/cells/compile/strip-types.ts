import { transform } from 'sucrase';
import { CellSyntaxError } from '../errors/cell-syntax-error.js';
import { refuseNamespaces } from './refuse-namespaces.js';

/** JavaScript of a cell, on the same lines as its TypeScript. */
export interface Stripped {
  readonly js: string;
  /** Source map (version 3) from the JavaScript back to the TypeScript, made when asked for. */
  map(): object | null;
}

/** Removes the types of a cell. Lines stay; columns move, and `map` tells by how much. */
export function stripTypes(source: string): Stripped {
  refuseNamespaces(source);
  return {
    js: run(source).code,
    map: () => run(source, 'cell.js').sourceMap ?? null,
  };
}

function run(source: string, compiledFilename?: string) {
  try {
    return transform(source, {
      transforms: ['typescript'],
      disableESTransforms: true,
      keepUnusedImports: true,
      filePath: 'cell.ts',
      ...(compiledFilename ? { sourceMapOptions: { compiledFilename } } : {}),
    });
  } catch (error) {
    throw asSyntaxError(error);
  }
}

/** sucrase puts file and place into its message; a cell error carries them apart. */
function asSyntaxError(error: unknown): unknown {
  const { message, loc } = error as { message?: string; loc?: { line: number; column: number } };
  if (typeof message !== 'string') return error;
  const text = message.replace(/^Error transforming [^:]*: /, '').replace(/ \(\d+:\d+\)$/, '');
  return new CellSyntaxError(text, loc?.line ?? 1, loc?.column ?? 1);
}
