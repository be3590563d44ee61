/** The programs that a program has started, and theirs, so that none is left behind. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';

const windows = process.platform === 'win32';

/** Process ids of all descendants of `pid` (none on Windows, where endTree does without). */
export function descendants(pid) {
  if (windows) return [];
  const listing = spawnSync('ps', ['-A', '-o', 'pid=,ppid='], { encoding: 'utf8' }).stdout ?? '';
  const pairs = listing.split('\n').map((line) => line.trim().split(/\s+/).map(Number));
  const found = [pid];
  for (const parent of found)
    for (const [child, of] of pairs) if (of === parent && !found.includes(child)) found.push(child);
  return found.slice(1);
}

/** A process that has ended and only waits for its parent to take note, as Linux shows it. */
function isZombie(pid) {
  try {
    const text = fs.readFileSync(`/proc/${pid}/stat`, 'utf8');
    return text.slice(text.lastIndexOf(')') + 2).startsWith('Z');
  } catch {
    return false;
  }
}

/** True while the process runs. */
export function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return !isZombie(pid);
  } catch (error) {
    return error.code === 'EPERM';
  }
}

/** Ends processes that had their chance to stop by themselves. */
export function endTree(pid, children = descendants(pid)) {
  if (windows) spawnSync('taskkill', ['/PID', String(pid), '/T', '/F'], { stdio: 'ignore' });
  for (const id of [pid, ...children])
    try {
      process.kill(id, 'SIGKILL');
    } catch {
      // It is gone already.
    }
}

/** Ends all that this process has started. */
export function endChildren() {
  for (const id of descendants(process.pid)) endTree(id, []);
}
