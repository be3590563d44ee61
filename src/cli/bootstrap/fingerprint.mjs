/** Tells whether the files that something was made from have changed since. */
import crypto from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from './paths.mjs';

function filesBelow(entry) {
  const stat = fs.statSync(entry, { throwIfNoEntry: false });
  if (!stat) return [];
  if (!stat.isDirectory()) return [entry];
  const names = fs.readdirSync(entry).sort();
  return names.flatMap((name) => filesBelow(path.join(entry, name)));
}

/**
 * A hash over names and contents of files and folders.
 * @param {string[]} entries paths relative to the checkout; a missing one counts as empty
 * @param {string} extra anything else the product depends on
 */
export function fingerprint(entries, extra = '') {
  const hash = crypto.createHash('sha256').update(extra);
  for (const file of entries.flatMap((entry) => filesBelow(path.resolve(ROOT, entry))))
    hash.update(path.relative(ROOT, file)).update('\0').update(fs.readFileSync(file)).update('\0');
  return hash.digest('hex');
}

/** A stamp file: remembers under which fingerprint something was last made. */
export class Stamp {
  constructor(file) {
    this.file = file;
  }

  holds(value) {
    try {
      return fs.readFileSync(this.file, 'utf8') === value;
    } catch {
      return false;
    }
  }

  set(value) {
    fs.mkdirSync(path.dirname(this.file), { recursive: true });
    fs.writeFileSync(this.file, value);
  }

  clear() {
    fs.rmSync(this.file, { force: true });
  }
}
