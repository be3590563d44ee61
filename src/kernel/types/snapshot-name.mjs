import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';

/**
 * Name of the snapshot that this Node can start from, beside the program that it was made of. A package that is
 * replaced by a newer one may leave its snapshot behind: that has another name.
 * @param {string} root the folder of the package, which the snapshot was made for
 * @param {string} program
 * @returns {string}
 */
export function snapshotName(root, program) {
  const { version } = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8'));
  const of = [process.version, process.arch, process.platform, root];
  const text = [...of, version, fs.statSync(program).size].join('\n');
  return `types-${createHash('sha1').update(text).digest('hex').slice(0, 12)}.blob`;
}
