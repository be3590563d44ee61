import os from 'node:os';
import path from 'node:path';
import { murmur2 } from './murmur2.js';

/** Seed of the hash in the names of cells' files. */
export const HASH_SEED = 0xc0c4ed;
export const SUFFIX = '.ts';

/**
 * The files that a client knows cells by. They need not exist: the name says what the cell's text is.
 * Each process has a folder of its own, by which a client sees that its kernel is a new one.
 */
export class CellFiles {
  /** JupyterLab 4.6 shows `Cell [3]` for a path only if it holds `ipykernel_`. */
  readonly prefix = path.join(os.tmpdir(), `cocked-hat_ipykernel_${process.pid}`) + path.sep;
  readonly #sources = new Map<string, string>();

  /** The path of a cell with this text. */
  add(source: string): string {
    const file = `${this.prefix}${murmur2(source, HASH_SEED)}${SUFFIX}`;
    this.#sources.set(file, source);
    return file;
  }

  has(file: string): boolean {
    return file.startsWith(this.prefix);
  }

  source(file: string): string | undefined {
    return this.#sources.get(file);
  }
}
