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

/** From here on a failed check is an error (`true`) or feedback only (`false`). */
export function runForMarks(on = true): void {
  (globalThis as Host)[FLAG] = on;
}
