/**
 * `node tests/bench/lite.mjs [starts]`: how soon a cell answers in a JupyterLite page, our kernel beside JupyterLite's own for
 * JavaScript in one site. Wants dist/ built, Chromium, and the packages of tests/bench/requirements.txt in .env.
 */
import { execFileSync } from 'node:child_process';
import { bundle, ROOT } from './bundle.mjs';

const words = [await bundle('lite-run.ts'), ...process.argv.slice(2)];
execFileSync(process.execPath, words, { cwd: ROOT, stdio: 'inherit' });
