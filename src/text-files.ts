import { readFile, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { counted } from './core/units/counted.js';

/** Files whose text this session has: what was noted in them is not written over. */
const read = new Set<string>();

/**
 * The text of a file, UTF-8, a byte-order mark taken off. @param path from the folder of the notebook, or whole
 * @throws Error naming the file when it is not there
 */
export async function readText(path: string): Promise<string> {
  try {
    const text = (await readFile(path, 'utf8')).replace(/^\uFEFF/, '');
    read.add(resolve(path));
    return text;
  } catch (error) {
    if (!isMissing(error)) throw error;
    throw new Error(`there is no file '${path}', looked for from ${process.cwd()}`, {
      cause: error,
    });
  }
}

/**
 * Writes a text to a file, UTF-8, over what an earlier run wrote there: `await saveText('amended.csv', amended.toCsv())`.
 * @param path from the folder of the notebook, or whole; its folder must be there
 * @returns a sentence that says what was written where
 * @throws Error for a file that `readText` has read, which stays as it was, or a folder that is not there
 */
export async function saveText(path: string, text: string): Promise<string> {
  if (typeof text !== 'string')
    throw new TypeError("give the text to be saved, as in saveText('amended.csv', log.toCsv())");
  if (read.has(resolve(path)))
    throw new Error(
      `'${path}' is a file this notebook has read, and stays as it is: save under another name`,
    );
  try {
    await writeFile(path, text, 'utf8');
  } catch (error) {
    if (!isMissing(error)) throw error;
    throw new Error(`there is no folder for '${path}', looked for from ${process.cwd()}`, {
      cause: error,
    });
  }
  const lines = text.split(/\r\n|\n/).length - (/\n$/.test(text) ? 1 : 0);
  return `${counted(lines, 'line')} written to ${path}`;
}

const isMissing = (error: unknown) => (error as NodeJS.ErrnoException).code === 'ENOENT';
