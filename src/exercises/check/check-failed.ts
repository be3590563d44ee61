import type { Feedback } from './feedback.js';

/** A check run for marks did not come out. The message is the feedback itself. */
export class CheckFailed extends Error {
  override readonly name = 'CheckFailed';
  constructor(readonly feedback: Feedback) {
    super(feedback.text);
  }
}
