/** `npm run class`: what the guide says about nbgrader and JupyterHub, done with those programs themselves; no part of `npm test`. */
import { ensureClassEnv } from './class-env.mjs';
import { wordsGiven } from '../../src/cli/bootstrap/words-given.mjs';
import { runHub } from './hub-run.mjs';
import { runNbgrader } from './nbgrader-run.mjs';

const PARTS = { nbgrader: runNbgrader, hub: runHub };
const USAGE = `npm run class [-- nbgrader] [hub]

Does what the guide says about nbgrader and JupyterHub with those programs themselves. They are installed into .cache/class
at the first run, which takes about a minute.`;
const { positionals: asked } = wordsGiven(USAGE, {}, Object.keys(PARTS));
ensureClassEnv();
for (const [name, run] of Object.entries(PARTS)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  const since = performance.now();
  const told = await run();
  console.log(`${name}: ${told} (${((performance.now() - since) / 1000).toFixed(1)} s)`);
}
