/** The process in which `runNotebook` executes cells; it is told what to do by its parent. */
import fs from 'node:fs';
import { FLAG, type FromCells, type ToCells } from '../messages.js';
import { loadPart } from '../parts.js';
import { openTypes } from '../types/open-types.js';

const types = openTypes(({ message }) => {
  fs.writeSync(2, `cocked-hat: ${message}\n`);
  process.exit(1);
});
const flags = new Int32Array(new SharedArrayBuffer(FLAG.LENGTH * Int32Array.BYTES_PER_ELEMENT));
loadPart('cells').startCells({
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
