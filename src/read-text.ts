import { readFile } from 'node:fs/promises';

/**
 * The text of a file, UTF-8, a byte-order mark taken off. @param path from the folder of the notebook, or whole
 * @throws Error naming the file when it is not there
 */
export async function readText(path: string): Promise<string> {
  try {
    return (await readFile(path, 'utf8')).replace(/^\uFEFF/, '');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    throw new Error(`there is no file '${path}', looked for from ${process.cwd()}`, {
      cause: error,
    });
  }
}
