/** The process in which `runNotebook` executes cells; it is told what to do by its parent. */
import { Worker } from 'node:worker_threads';
import { startCells } from '../host/start-cells.js';
import { FLAG, type FromCells, type ToCells } from '../messages.js';

const types = new Worker(new URL('./types.js', import.meta.url), { workerData: {} });
const flags = new Int32Array(new SharedArrayBuffer(FLAG.LENGTH * Int32Array.BYTES_PER_ELEMENT));
startCells({
  front: {
    postMessage: (message: FromCells) => void process.send?.(message),
    on: (event, listener) => void process.on(event, (m) => listener(m as ToCells)),
  },
  types,
  flags,
  ask: () => {
    throw new Error('this notebook cannot ask for input: nobody is there to answer');
  },
});
process.on('disconnect', () => process.exit(0));
