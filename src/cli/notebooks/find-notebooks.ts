import fs from 'node:fs';
import path from 'node:path';
import { UsageError } from '../errors.js';

function below(folder: string): string[] {
  const names = fs.readdirSync(folder).filter((name) => name.endsWith('.ipynb'));
  return names.sort().map((name) => path.join(folder, name));
}

function notebooksAt(word: string): string[] {
  const stat = fs.statSync(word, { throwIfNoEntry: false });
  if (!stat) throw new UsageError(`There is no file or folder ${word} (looked for ${path.resolve(word)}).`);
  if (stat.isDirectory()) {
    const found = below(word);
    if (found.length === 0) throw new UsageError(`The folder ${word} holds no notebook (.ipynb).`);
    return found;
  }
  if (!word.endsWith('.ipynb'))
    throw new UsageError(`${word} is not a notebook; a notebook's name ends in .ipynb.`);
  return [word];
}

/**
 * The notebooks that the words name: files, and all notebooks of a folder (not of its subfolders).
 * @throws UsageError when a word names none
 */
export function findNotebooks(words: readonly string[]): string[] {
  return [...new Set(words.flatMap(notebooksAt).map((file) => path.normalize(file)))];
}
