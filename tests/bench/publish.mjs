/** `npm run bench -- publish`: sizes and times of published pages, sites and marking. Wants dist/ built and Chromium. */
import { execFileSync } from 'node:child_process';
import { bundle, ROOT } from './bundle.mjs';

execFileSync(process.execPath, [await bundle('publish-run.ts')], { cwd: ROOT, stdio: 'inherit' });
