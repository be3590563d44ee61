import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { isLocalPath } from './local-path.js';
import { findLocalFile } from './local-file.js';

/** Changes when a local file or any local file it imports changes, so that Node loads it again. */
export function contentVersion(file: string): string {
  const hash = createHash('sha1');
  const seen = new Set<string>();
  const visit = (current: string): void => {
    if (seen.has(current)) return;
    seen.add(current);
    const text = fs.readFileSync(current, 'utf8');
    hash.update(current).update(text);
    for (const specifier of importsOf(text)) {
      const found = isLocalPath(specifier)
        ? findLocalFile(path.resolve(path.dirname(current), specifier))
        : null;
      if (found) visit(found);
    }
  };
  visit(file);
  return hash.digest('hex').slice(0, 16);
}

/** Specifiers of imports and re-exports. A false hit in a string or comment does no harm here. */
function importsOf(text: string): string[] {
  return [...text.matchAll(/(?:\bfrom|\bimport)\s*\(?\s*['"]([^'"]+)['"]/g)].map((m) => m[1] ?? '');
}
