/** Which parts of dist/ are out of date. */
import fs from 'node:fs';
import path from 'node:path';
import { PARTS } from './build-parts.mjs';
import { fingerprint, Stamp } from './fingerprint.mjs';
import { DIST, ROOT } from './paths.mjs';

/** Besides its sources every part depends on the packages and on the build itself. */
const COMMON = ['package-lock.json', 'src/cli/bootstrap/build-parts.mjs'];

/** True if a file of the checkout exists. */
export const exists = (file) => fs.existsSync(path.join(ROOT, file));

/** Where it is noted from which sources a part was made. */
export const stampOf = (part) =>
  new Stamp(path.join(DIST, '.stamps', part.name.replaceAll(' ', '-')));

/** The parts that must be made, each with the fingerprint of its sources as they are now. */
export function staleParts(parts = PARTS) {
  return parts
    .filter((part) => exists(part.entry))
    .map((part) => ({ part, value: fingerprint([...COMMON, ...part.inputs], process.version) }))
    .filter(({ part, value }) => !exists(part.product) || !stampOf(part).holds(value));
}
