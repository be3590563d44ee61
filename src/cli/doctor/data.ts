/** Checks that the data files are those that the results in the documents were computed from. */
import path from 'node:path';
import { compareChecksums, CHECKSUMS } from '../bootstrap/checksums.mjs';
import { ROOT, shown } from '../bootstrap/paths.mjs';
import { bad, type Finding, good } from './finding.js';

export function checkData(folder: string = path.join(ROOT, 'data')): Finding {
  const { count, differing, missing, unlisted } = compareChecksums(folder);
  if (count === 0)
    return bad('Data', `${shown(path.join(folder, CHECKSUMS))} is missing`, 'git checkout -- data');
  const faults = [
    ...differing.map((name) => `${name} was changed`),
    ...missing.map((name) => `${name} is missing`),
    ...unlisted.map((name) => `${name} is not listed`),
  ];
  if (faults.length === 0) return good('Data', `${count} files as they were published`);
  return bad(
    'Data',
    faults.join('; '),
    'git checkout -- data brings back the published files; after a change on purpose, npm run checksums',
  );
}
