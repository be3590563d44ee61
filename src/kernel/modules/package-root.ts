import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

let found: string | null = null;

/** The folder of this package: the nearest one above this file whose package.json has our name. */
export function packageRoot(): string {
  found ??= search(path.dirname(fileURLToPath(import.meta.url)));
  return found;
}

function search(folder: string): string {
  const file = path.join(folder, 'package.json');
  if (fs.existsSync(file)) {
    const { name } = JSON.parse(fs.readFileSync(file, 'utf8')) as { name?: string };
    if (name === 'cocked-hat') return folder;
  }
  const parent = path.dirname(folder);
  if (parent === folder) throw new Error('the package cocked-hat is not around its own files');
  return search(parent);
}
