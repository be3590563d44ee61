import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import { packageRoot } from '../modules/package-root.js';

/**
 * Makes the snapshot for the next start: a package comes without one, because it fits one Node and one folder only. It appears
 * under its name when it is whole. @returns whether it could be made; where not, the thread goes on serving
 */
export function makeSnapshot(program: string, snapshot: string): Promise<boolean> {
  const making = `${snapshot}.${process.pid}`;
  const words = ['--snapshot-blob', making, '--build-snapshot', program];
  return new Promise((resolve) => {
    try {
      const child = spawn(process.execPath, words, { cwd: packageRoot(), stdio: 'ignore' });
      child.on('error', () => resolve(false));
      child.on('exit', (code) => resolve(code === 0 ? placed(making, snapshot) : dropped(making)));
      if (child.pid) os.setPriority(child.pid, os.constants.priority.PRIORITY_LOW);
    } catch {
      // Not allowed here.
      resolve(false);
    }
  });
}

function placed(making: string, snapshot: string): boolean {
  try {
    fs.renameSync(making, snapshot);
    return true;
  } catch {
    return dropped(making);
  }
}

function dropped(making: string): false {
  fs.rmSync(making, { force: true });
  return false;
}
