/** Makes `npx cocked-hat` in the checkout mean the command line built here. */
import fs from 'node:fs';
import path from 'node:path';
import { BIN, DIST } from './paths.mjs';

const windows = process.platform === 'win32';

function pointsTo(place, program) {
  try {
    return fs.realpathSync(place) === fs.realpathSync(program);
  } catch {
    return false;
  }
}

/** Returns false where the command line is not built. */
export function linkCommand() {
  const program = path.join(DIST, 'cli.js');
  if (!fs.existsSync(program)) return false;
  fs.chmodSync(program, 0o755);
  const place = path.join(BIN, windows ? 'cocked-hat.cmd' : 'cocked-hat');
  if (windows) fs.writeFileSync(place, `@node "${program}" %*\r\n`);
  else if (!pointsTo(place, program)) {
    fs.rmSync(place, { force: true });
    fs.symlinkSync(path.relative(BIN, program), place);
  }
  return true;
}
