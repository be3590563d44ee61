/** Bundles accuracy.ts, which is TypeScript, and runs it. */
import { build } from 'esbuild';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { wordsGiven } from '../../src/cli/bootstrap/words-given.mjs';

const USAGE = `npm run accuracy [-- --brief | --json]

Runs every check against the outside and prints the accuracy table.

  --brief  merges what is held against several sources
  --json   gives the figures`;
wordsGiven(USAGE, { brief: { type: 'boolean' }, json: { type: 'boolean' } });

const outfile = path.resolve('.cache/accuracy.mjs');
await build({
  entryPoints: ['tests/published/accuracy.ts'],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  packages: 'external',
  alias: { 'cocked-hat': path.resolve('src/index.ts') },
  logLevel: 'warning',
});
await import(pathToFileURL(outfile));
