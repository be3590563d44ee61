/** A failed step: what failed, what the program said, and what the user can do about it. */
export class SetupFailure extends Error {
  /**
   * @param {string} what one sentence: what failed
   * @param {{ remedy?: string, details?: string, log?: string }} more what to do, the last lines of output, the full log's path
   */
  constructor(what, { remedy = '', details = '', log = '' } = {}) {
    super(what);
    this.name = 'SetupFailure';
    this.remedy = remedy;
    this.details = details;
    this.log = log;
  }

  /** The whole message for a terminal. */
  toText() {
    const parts = [`Failed: ${this.message}`];
    if (this.details) parts.push(this.details.replace(/^/gm, '    '));
    if (this.log) parts.push(`Full output: ${this.log}`);
    if (this.remedy) parts.push(`What to do: ${this.remedy}`);
    return parts.join('\n');
  }
}

/** Prints an error without a stack trace (with one when it is not ours) and sets exit code 1. */
export function reportFailure(error) {
  if (error instanceof SetupFailure) console.error(`\n${error.toText()}`);
  else console.error(error);
  process.exitCode = 1;
}
