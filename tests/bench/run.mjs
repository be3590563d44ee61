/** `npm run bench`: runs every measurement in tests/bench/, one after another; fails when one of them does. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';

const folder = 'tests/bench';
const scripts = fs.readdirSync(folder).filter((f) => f.endsWith('.mjs') && f !== 'run.mjs');
for (const script of scripts) {
  console.log(`\n## ${path.basename(script, '.mjs')}\n`);
  const { status } = spawnSync(process.execPath, [path.join(folder, script)], { stdio: 'inherit' });
  if (status !== 0) process.exitCode = 1;
}
