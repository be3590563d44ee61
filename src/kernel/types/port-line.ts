import type { MessagePort } from 'node:worker_threads';
import type { Line } from '../../cells/index.js';

/** A Node port, or a worker as its parent sees it, as a line to a type engine. */
export function portLine(port: Pick<MessagePort, 'postMessage' | 'on'>): Line {
  return {
    post: (message) => port.postMessage(message),
    listen: (listener) => void port.on('message', listener),
  };
}
