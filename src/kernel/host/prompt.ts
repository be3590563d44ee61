import { KeyboardInterrupt } from '../../cells/index.js';
import { FLAG, INPUT } from '../messages.js';

/** Waits for the reader's line; the thread stands still meanwhile. */
export function askReader(flags: Int32Array, take: () => string): string {
  Atomics.wait(flags, FLAG.input, INPUT.waiting);
  const state = Atomics.load(flags, FLAG.input);
  if (state === INPUT.interrupted) throw new KeyboardInterrupt();
  if (state === INPUT.refused)
    throw new Error('this notebook cannot ask for input: whatever runs it takes no answers');
  return take();
}
