/** Bundles accuracy.ts, which is TypeScript, and runs it. */
import { build } from 'esbuild';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

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
