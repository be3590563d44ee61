import type { Feedback } from './feedback.js';

const LISTENER: unique symbol = Symbol.for('cocked-hat.checked') as never;
type Host = { [LISTENER]?: (feedback: Feedback) => void };

/** Tells whoever runs this notebook for marks what a check found; nobody listens while learning. */
export function tellChecked(feedback: Feedback): void {
  (globalThis as Host)[LISTENER]?.(feedback);
}

/** From here on `listener` is told of every check in this program, whichever copy of the library makes it. */
export function onChecked(listener: ((feedback: Feedback) => void) | undefined): void {
  if (listener) (globalThis as Host)[LISTENER] = listener;
  else delete (globalThis as Host)[LISTENER];
}
