import { describe, expect, test } from 'vitest';
import { runCheck, type Check } from './compare.js';

/** One test a check: it holds within its tolerance and makes every comparison it announces. */
export function gate(title: string, checks: readonly Check[]): void {
  describe(title, () => {
    test('there are checks', () => expect(checks.length).toBeGreaterThan(0));
    for (const check of checks)
      test(`${check.subject} ${check.quantity} agrees with ${check.source} to ${check.tolerance} ${check.unit}`, () => {
        const outcome = runCheck(check);
        expect(outcome.failures).toEqual([]);
        expect(outcome.count).toBe(check.expected);
        expect(check.reason).not.toBe('');
      });
  });
}
