/** Page and worker of a published notebook in one script: which of them it is, its surroundings tell. */
import { startPage } from './page.js';
import { startWorker } from './worker.js';

if (typeof document === 'undefined') startWorker(globalThis as never);
else startPage(document.getElementById('program')?.textContent ?? '');
