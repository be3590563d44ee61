/**
 * The kernel's process: this thread runs the cells; see `front/main.ts` for the thread that talks. That one is
 * started first and alone, so that it answers the client before the rest is read.
 */
import fs from 'node:fs';
import { MessageChannel, Worker } from 'node:worker_threads';
import { FLAG } from './messages.js';
import { loadPart } from './parts.js';

const [, , connectionFile] = process.argv;
if (!connectionFile) {
  process.stderr.write('usage: node dist/kernel/main.cjs CONNECTION_FILE\n');
  process.exit(2);
}
const flags = new SharedArrayBuffer(FLAG.LENGTH * Int32Array.BYTES_PER_ELEMENT);
const [cells, answers, types] = [new MessageChannel(), new MessageChannel(), new MessageChannel()];
const ports = { cells: cells.port1, answers: answers.port1, types: types.port1 };
const front = new Worker(new URL('./front.cjs', import.meta.url), {
  workerData: { connectionFile, flags, ...ports },
  transferList: Object.values(ports),
});
front.on('error', (error) => {
  // The stream's own write belongs to the cells by now, and would be lost with them.
  const { message, stack } = error as Error;
  fs.writeSync(2, `cocked-hat: ${message}\n${stack ?? ''}\n`);
  process.exit(1);
});
front.once('message', () =>
  loadPart('cells').serveCells({
    cells: cells.port2,
    answers: answers.port2,
    types: types.port2,
    flags,
  }),
);
