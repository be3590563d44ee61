/** The thread that judges types: TypeScript and tslab's converter live here. */
import { parentPort, workerData, type MessagePort } from 'node:worker_threads';
import { serveTypeEngine } from '../../cells/index.js';
import { garbageCollector } from './collect-garbage.js';
import { portLine } from './port-line.js';
import { TslabEngine } from './tslab-engine.js';

/** Garbage is collected this long after a check, when the cell has its answer. */
const AFTER_MS = 20;

const { port } = workerData as { port?: MessagePort };
const engine = new TslabEngine();
const collect = garbageCollector();
const check = engine.check.bind(engine);
engine.check = async (id, source) => {
  setTimeout(collect, AFTER_MS);
  return check(id, source);
};
if (parentPort) serveTypeEngine(portLine(parentPort), engine);
if (port) serveTypeEngine(portLine(port), engine);
