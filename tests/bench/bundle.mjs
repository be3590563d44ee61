/** Bundles a TypeScript report with the library as it is in src/, so that a report needs no build first. */
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';

export const ROOT = path.resolve(import.meta.dirname, '..', '..');

/** @param {string} entry file name in this folder @returns {Promise<string>} path of the bundle */
export async function bundle(entry) {
  // One level below the root, so that the library finds data/ as it does from src/ or dist/.
  const outfile = path.join(ROOT, '.cache', entry.replace(/\.ts$/, '.mjs'));
  mkdirSync(path.dirname(outfile), { recursive: true });
  await build({
    entryPoints: [path.join(import.meta.dirname, entry)],
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    alias: { 'cocked-hat': path.join(ROOT, 'src', 'index.ts') },
    outfile,
    logLevel: 'error',
  });
  return outfile;
}
