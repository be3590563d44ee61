import type { XPublisher } from 'zeromq';
import type { Publisher } from './publisher.js';

/** libzmq's numbers (zmq.h, libzmq 4.3) of options that zeromq.js has no names for. */
const XPUB_MANUAL = 71;
const SUBSCRIBE = 6;
const UNSUBSCRIBE = 7;

/** zeromq.js keeps the setters by number to itself and its subclasses. */
interface OptionsByNumber {
  setBoolOption(option: number, value: boolean): void;
  setStringOption(option: number, value: Buffer): void;
}

/**
 * Lets a client subscribe only when its welcome is about to go out: whatever else is published
 * meanwhile cannot come before it. To be called before the socket is bound.
 */
export function letNobodyInUnasked(socket: XPublisher): void {
  (socket as unknown as OptionsByNumber).setBoolOption(XPUB_MANUAL, true);
}

/** Lets each client in that asks, and welcomes it. */
export async function welcomeSubscribers(socket: XPublisher, publisher: Publisher): Promise<void> {
  const options = socket as unknown as OptionsByNumber;
  for await (const [frame] of socket) {
    // A client that leaves at the shutdown says so to a socket that is closed by now.
    if (socket.closed) return;
    const topic = frame?.subarray(1) ?? Buffer.alloc(0);
    if (frame?.[0] === 0) options.setStringOption(UNSUBSCRIBE, topic);
    if (frame?.[0] !== 1) continue;
    options.setStringOption(SUBSCRIBE, topic);
    publisher.send('iopub_welcome', { subscription: topic.toString() });
  }
}
