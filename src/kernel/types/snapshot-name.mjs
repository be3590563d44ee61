import { createHash } from 'node:crypto';

/**
 * Name of the snapshot that this Node can start from, in the kernel's folder.
 * @param {string} root the folder of the package, which the snapshot was made for
 * @returns {string}
 */
export function snapshotName(root) {
  const of = [process.version, process.arch, process.platform, root].join('\n');
  return `types-${createHash('sha1').update(of).digest('hex').slice(0, 12)}.blob`;
}
