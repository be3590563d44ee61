/** Takes the types of data files along into dist/types, where the data files themselves do not go. */
import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from './paths.mjs';

const DATA_IMPORT = /(['"])\.\.\/((?:\.\.\/)*data\/[\w-]+)\.json\1/g;
const DECLARATION = '.d.json.ts';

function declarationsBelow(folder) {
  const names = fs.readdirSync(folder, { recursive: true });
  return names.filter((name) => name.endsWith('.d.ts')).map((name) => path.join(folder, name));
}

/**
 * Copies data/NAME.d.json.ts to FOLDER/data/NAME.d.ts and lets the declarations in FOLDER, which stand one level
 * nearer to it than their sources stood to data/, import from there.
 */
export function includeDataTypes(folder) {
  for (const file of declarationsBelow(folder)) {
    const text = fs.readFileSync(file, 'utf8');
    const changed = text.replace(DATA_IMPORT, '$1$2.js$1');
    if (changed !== text) fs.writeFileSync(file, changed);
  }
  const data = path.join(ROOT, 'data');
  fs.mkdirSync(path.join(folder, 'data'));
  for (const name of fs.readdirSync(data).filter((each) => each.endsWith(DECLARATION)))
    fs.copyFileSync(
      path.join(data, name),
      path.join(folder, 'data', `${name.slice(0, -DECLARATION.length)}.d.ts`),
    );
}
