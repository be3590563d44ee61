/**
 * The text of an entry cannot be understood or is impossible. The message names the mistake, shows the
 * offending text and gives the right form; `text` keeps what the user typed.
 */
export class EntryError extends Error {
  override readonly name = 'EntryError';
  constructor(
    message: string,
    readonly text: string,
    /** Index of the first offending character in `text` (UTF-16 units), if one can be named. */
    readonly at?: number,
  ) {
    super(at === undefined ? message : `${message}\n  ${text}\n  ${' '.repeat(at)}^`);
  }
}

/** A number is outside what the quantity or the formula can take. */
export class OutOfRangeError extends RangeError {
  override readonly name = 'OutOfRangeError';
}

/** Returns `value` if it is a finite number. @throws OutOfRangeError naming `what` otherwise. */
export function finite(value: number, what: string): number {
  if (typeof value !== 'number' || !Number.isFinite(value))
    throw new OutOfRangeError(`${what} must be a finite number, not ${String(value)}`);
  return value;
}
