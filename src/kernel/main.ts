/** The kernel's process: this thread runs the cells; see `front/main.ts` for the thread that talks. */
import fs from 'node:fs';
import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads';
import { askReader } from './host/prompt.js';
import { startCells } from './host/start-cells.js';
import { FLAG } from './messages.js';
import { portLine } from './types/port-line.js';

const [, , connectionFile] = process.argv;
if (!connectionFile) {
  process.stderr.write('usage: node dist/kernel/main.js CONNECTION_FILE\n');
  process.exit(2);
}
const flags = new SharedArrayBuffer(FLAG.LENGTH * Int32Array.BYTES_PER_ELEMENT);
const answers = new MessageChannel();
const typesLink = new MessageChannel();
const front = new Worker(new URL('./front.js', import.meta.url), {
  workerData: { connectionFile, flags, answers: answers.port1, types: typesLink.port1 },
  transferList: [answers.port1, typesLink.port1],
});
front.on('error', (error) => {
  // The stream's own write belongs to the cells by now, and would be lost with them.
  const { message, stack } = error as Error;
  fs.writeSync(2, `cocked-hat: ${message}\n${stack ?? ''}\n`);
  process.exit(1);
});
const words = new Int32Array(flags);
const take = (): string => receiveMessageOnPort(answers.port2)?.message as string;
startCells({
  front,
  types: portLine(typesLink.port2),
  flags: words,
  ask: () => askReader(words, take),
});
