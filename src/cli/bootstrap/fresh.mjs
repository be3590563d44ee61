/** `npm run fresh`: both commands of the README as a newcomer meets them, timed. Not part of `npm test`. */
import './require-node.mjs';
import { nodeFromRegistry, pythonOf } from './fresh-programs.mjs';
import { freshRun } from './fresh-run.mjs';
import { endChildren } from './process-tree.mjs';
import { wordsGiven } from './words-given.mjs';

const USAGE = `npm run fresh [-- --node 22 --node 24 --python 3.13 --no-tests --keep PATHS…]

What a newcomer meets: clones the last commit into a temporary folder, with a new home and empty caches,
gives both commands of the README and prints how long each took. A whole run takes about a quarter of an hour.

  --node VERSION    with this version of Node.js, got from the registry; may be given several times
  --python VERSION  with this version of Python
  --no-tests        only npm start, twice
  --keep            leaves the temporary folder where it is
  PATHS             tests to run, as tests/kernel; all unless named`;

const { values: options, positionals: filters } = wordsGiven(
  USAGE,
  {
    keep: { type: 'boolean', default: false },
    'no-tests': { type: 'boolean', default: false },
    node: { type: 'string', multiple: true, default: [] },
    python: { type: 'string' },
  },
  'any',
);

const results = [];
try {
  const python = options.python === undefined ? undefined : pythonOf(options.python);
  const nodes = options.node.length > 0 ? options.node : [undefined];
  for (const version of nodes) {
    const node = version === undefined ? undefined : nodeFromRegistry(version);
    const name = [
      `Node ${node?.version ?? process.versions.node}`,
      python && `Python ${options.python}`,
    ];
    const wish = {
      node: node?.folder,
      python,
      tests: !options['no-tests'],
      filters,
      keep: options.keep,
    };
    results.push(...(await freshRun({ ...wish, name: name.filter(Boolean).join(', ') })));
  }
} catch (error) {
  console.error(error.message);
  results.push({ what: error.message, took: 0, good: false });
} finally {
  endChildren();
}
for (const { what, took, good } of results)
  console.log(`${good ? 'good  ' : 'FAILED'}  ${took.toFixed(1).padStart(6)} s  ${what}`);
process.exit(results.every(({ good }) => good) ? 0 : 1);
