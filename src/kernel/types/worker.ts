/** The thread that judges types: TypeScript and tslab's converter live here. */
import { parentPort, workerData, type MessagePort } from 'node:worker_threads';
import { serveTypeEngine } from './remote-type-engine.js';
import { TslabEngine } from './tslab-engine.js';

const { port } = workerData as { port?: MessagePort };
const engine = new TslabEngine();
if (parentPort) serveTypeEngine(parentPort, engine);
if (port) serveTypeEngine(port, engine);
