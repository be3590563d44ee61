import { receiveMessageOnPort, type MessagePort } from 'node:worker_threads';
import { portLine } from '../types/port-line.js';
import { askReader } from './prompt.js';
import { startCells } from './start-cells.js';

/** The ports of the cells' thread to the front. */
export interface CellsPorts {
  readonly cells: MessagePort;
  /** What readers answer to prompts. */
  readonly answers: MessagePort;
  readonly types: MessagePort;
  readonly flags: SharedArrayBuffer;
}

/** Runs cells for the front thread. What it has sent so far waits in the ports. */
export function serveCells({ cells, answers, types, flags }: CellsPorts): void {
  const words = new Int32Array(flags);
  const take = (): string => receiveMessageOnPort(answers)?.message as string;
  startCells({
    front: cells,
    types: portLine(types),
    flags: words,
    ask: () => askReader(words, take),
  });
}

export { startCells };
