import path from 'node:path';
import { fileURLToPath } from 'node:url';

const KERNEL_FOLDER = path.dirname(fileURLToPath(import.meta.url));

/** True for the files of the kernel itself, which error reports leave out. */
export function isInternalFile(file: string): boolean {
  const name = file.startsWith('file:') ? fileURLToPath(file) : file;
  return name.startsWith(KERNEL_FOLDER);
}
