/**
 * `npm run class [nbgrader] [hub]`: what the guide says about nbgrader and JupyterHub, done with those programs themselves. They are installed
 * into .cache/class at the first run (about a minute), so this is a command of its own and no part of `npm test`.
 */
import { ensureClassEnv } from './class-env.mjs';
import { runHub } from './hub-run.mjs';
import { runNbgrader } from './nbgrader-run.mjs';

const PARTS = { nbgrader: runNbgrader, hub: runHub };
const asked = process.argv.slice(2);
ensureClassEnv();
for (const [name, run] of Object.entries(PARTS)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  const since = performance.now();
  const told = await run();
  console.log(`${name}: ${told} (${((performance.now() - since) / 1000).toFixed(1)} s)`);
}
