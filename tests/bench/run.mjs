/** `npm run bench`: runs every measurement in tests/bench/, one after another; fails when one of them does. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { wordsGiven } from '../../src/cli/bootstrap/words-given.mjs';
import { ensureBenchPeers } from './report/peers.mjs';

const folder = 'tests/bench';
/** Not measurements of speed: helpers, and the long ones `npm run calibration` and `npm run slips`. */
const OTHERS = [
  'run.mjs',
  'bundle.mjs',
  'editor.mjs',
  'least-kernel.mjs',
  'calibration.mjs',
  'slips.mjs',
];
const scripts = fs.readdirSync(folder).filter((f) => f.endsWith('.mjs') && !OTHERS.includes(f));
const names = scripts.map((script) => path.basename(script, '.mjs'));
const { positionals: asked } = wordsGiven(
  `npm run bench [-- PARTS…]

Measures beside peers in the same run and prints the ratios: ${names.join(', ')}. All unless named.
The long ones are commands of their own: npm run calibration, npm run slips.`,
  {},
  names,
);
const chosen = scripts.filter((_, i) => asked.length === 0 || asked.includes(names[i]));
await ensureBenchPeers();
for (const script of chosen) {
  console.log(`\n## ${path.basename(script, '.mjs')}\n`);
  const { status } = spawnSync(process.execPath, [path.join(folder, script)], { stdio: 'inherit' });
  if (status !== 0) process.exitCode = 1;
}
