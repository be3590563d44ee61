/** The thread that judges types: TypeScript and tslab's converter live here. */
import { parentPort, workerData, type MessagePort } from 'node:worker_threads';
import { serveTypeEngine } from '../../cells/index.js';
import { portLine } from './port-line.js';
import { TslabEngine } from './tslab-engine.js';

const { port } = workerData as { port?: MessagePort };
const engine = new TslabEngine();
if (parentPort) serveTypeEngine(portLine(parentPort), engine);
if (port) serveTypeEngine(portLine(port), engine);
