/** `npm run checksums`: notes the data files as they are now. */
import path from 'node:path';
import { CHECKSUMS, writeChecksums } from './checksums.mjs';
import { ROOT } from './paths.mjs';

const count = writeChecksums(path.join(ROOT, 'data'));
console.log(`data/${CHECKSUMS}: ${count} files`);
