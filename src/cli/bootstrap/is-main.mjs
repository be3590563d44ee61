/** Tells whether a module is the program that was started or is imported by another one. */
import fs from 'node:fs';
import { fileURLToPath } from 'node:url';

/** @param {string} url the module's `import.meta.url` */
export function isMain(url) {
  const started = process.argv[1];
  if (!started) return false;
  return fs.realpathSync(started) === fs.realpathSync(fileURLToPath(url));
}
