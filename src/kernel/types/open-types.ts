import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { Line } from '../../cells/index.js';
import { packageRoot } from '../modules/package-root.js';
import { makeSnapshot } from './make-snapshot.js';
import { portLine } from './port-line.js';
import { snapshotName } from './snapshot-name.mjs';
import { streamLine } from './stream-line.js';

/** A snapshot is made when the first cells have been run. */
const SNAPSHOT_AFTER_MS = 30_000;

/** The line to the judge of types, and its end. */
export interface Types extends Line {
  end(): void;
}

/** Starts the judge of types. `onLost` is told if it ends by itself. */
export function openTypes(onLost: (reason: Error) => void): Types {
  const program = fileURLToPath(new URL('./types.cjs', import.meta.url));
  const snapshot = path.join(path.dirname(program), snapshotName(packageRoot(), program));
  if (!fs.existsSync(snapshot)) {
    setTimeout(() => void makeSnapshot(program, snapshot), SNAPSHOT_AFTER_MS).unref();
    return threadLine(onLost);
  }
  try {
    return processLine(snapshot, onLost);
  } catch {
    // Where no processes may be started, as in the sandbox.
    return threadLine(onLost);
  }
}

function threadLine(onLost: (reason: Error) => void): Types {
  const worker = new Worker(new URL('./types.cjs', import.meta.url));
  worker.on('error', (reason) => onLost(reason as Error));
  return { ...portLine(worker), end: () => void worker.terminate() };
}

/** A process that ends before its first answer could not use the snapshot: a thread takes its place. */
function processLine(snapshot: string, onLost: (reason: Error) => void): Types {
  const child = spawn(process.execPath, ['--snapshot-blob', snapshot, process.cwd()], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  let line = streamLine(child.stdout, child.stdin);
  const unanswered: unknown[] = [];
  let answered = false;
  let ending = false;
  let listener: (message: unknown) => void = () => undefined;
  line.listen((message) => {
    answered = true;
    unanswered.length = 0;
    listener(message);
  });
  const ended = (reason: string): void => {
    if (ending) return;
    if (answered) return onLost(new Error(`the process that checks types ended (${reason})`));
    answered = true;
    line = threadLine(onLost);
    line.listen(listener);
    for (const message of unanswered) line.post(message);
  };
  child.stdin.on('error', () => undefined);
  child.on('error', ({ message }) => ended(message));
  child.on('exit', (code, signal) => ended(signal ?? `code ${code}`));
  return {
    post: (message) => {
      if (!answered) unanswered.push(message);
      line.post(message);
    },
    listen: (other) => (listener = other),
    end: () => {
      ending = true;
      child.kill('SIGKILL');
    },
  };
}
