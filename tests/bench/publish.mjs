/**
 * `node tests/bench/publish.mjs [pages publishing sites written computed]`: sizes and times of published pages, sites and
 * marking, all of them unless named. Wants dist/ built and Chromium.
 */
import { execFileSync } from 'node:child_process';
import { bundle, ROOT } from './bundle.mjs';

const words = [await bundle('publish-run.ts'), ...process.argv.slice(2)];
execFileSync(process.execPath, words, { cwd: ROOT, stdio: 'inherit' });
