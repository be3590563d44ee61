import path from 'node:path';
import { fileURLToPath } from 'node:url';

const KERNEL_FOLDER = path.dirname(fileURLToPath(import.meta.url));
/** The library beside the built kernel: an error says what was wrong and in which cell, not where the library found it. */
const LIBRARY = path.join(path.dirname(KERNEL_FOLDER), 'index.js');

/** True for the files of the kernel and of the library, which error reports leave out. */
export function isInternalFile(file: string): boolean {
  const name = file.startsWith('file:') ? fileURLToPath(file) : file;
  return name === LIBRARY || name.startsWith(KERNEL_FOLDER);
}
