const FLAG: unique symbol = Symbol.for('cocked-hat.marks') as never;
interface Host {
  [FLAG]?: boolean;
  process?: { env?: Record<string, string | undefined> };
}

/**
 * Whether a failed check is an error: in a run for marks. On when the environment has `COCKED_HAT_MARKS=1` (as a
 * grading server sets it) or after `runForMarks()`.
 */
export function isMarksRun(): boolean {
  const host = globalThis as Host;
  return host[FLAG] ?? host.process?.env?.['COCKED_HAT_MARKS'] === '1';
}

/**
 * Whether a check shows its marks as a bare number in its plain text: with `COCKED_HAT_MARKS=points`, for grading
 * servers that read marks from what a cell shows. A failed check is then no error, so that its right lines count.
 */
export function showsPoints(): boolean {
  return (globalThis as Host).process?.env?.['COCKED_HAT_MARKS'] === 'points';
}

/** From here on a failed check is an error (`true`) or feedback only (`false`). */
export function runForMarks(on = true): void {
  (globalThis as Host)[FLAG] = on;
}
