/** Lets only one set-up at a time change the checkout; a second one waits for the first. */
import fs from 'node:fs';
import path from 'node:path';
import { CACHE } from './paths.mjs';
import { isAlive } from './process-tree.mjs';
import { say } from './progress.mjs';

const LOCK = path.join(CACHE, 'setup.lock');

function holder() {
  try {
    return Number(fs.readFileSync(LOCK, 'utf8'));
  } catch {
    return undefined;
  }
}

function take() {
  fs.mkdirSync(CACHE, { recursive: true });
  try {
    fs.writeFileSync(LOCK, String(process.pid), { flag: 'wx' });
    return true;
  } catch {
    return false;
  }
}

/**
 * Runs `work` while holding the lock.
 * @template T
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function alone(work) {
  let told = false;
  while (!take()) {
    const pid = holder();
    if (pid === process.pid) return work();
    if (pid !== undefined && pid > 0 && !isAlive(pid)) fs.rmSync(LOCK, { force: true });
    else if (!told) {
      say(`Another set-up (process ${pid}) is at work in this folder; waiting for it.`);
      told = true;
    }
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  const release = () => fs.rmSync(LOCK, { force: true });
  process.once('exit', release);
  try {
    return await work();
  } finally {
    process.off('exit', release);
    release();
  }
}
