import type { Line } from '../../cells/index.js';

/** What a worker, a port to one and its parent's port have in common. */
interface TypesPort {
  postMessage(message: unknown): void;
  on(event: 'message', listener: (message: unknown) => void): unknown;
}

/** A Node port, or a worker as its parent sees it, as a line to a type engine. */
export function portLine(port: TypesPort): Line {
  return {
    post: (message) => port.postMessage(message),
    listen: (listener) => void port.on('message', listener),
  };
}
