/** The worker host of the page, in a Node worker thread: same code, another scope. */
import { parentPort, type MessagePort as NodePort } from 'node:worker_threads';
import type { ToWorker } from '../../../src/lab/lite-kernel/messages.js';
import { startWorker, type WorkerScope } from '../../../src/lab/lite-kernel/start-worker.js';

const port = parentPort as NodePort;
const scope: WorkerScope = {
  postMessage: (message) => port.postMessage(message),
  onmessage: null,
};
port.on('message', (message: ToWorker) => {
  // Node's ports lack `onmessage` assignment of the browser's kind only in their types.
  scope.onmessage?.({ data: message });
});
startWorker(scope, {});
