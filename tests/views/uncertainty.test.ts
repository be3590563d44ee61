import { expect, test } from 'vitest';
import { Duration } from '../../src/index.js';
import { fixInputs } from '../../src/views/chart/chart-inputs.js';
import { candidatesAt, UncertaintyModel } from '../../src/views/uncertainty/uncertainty-model.js';
import { sampleFix } from '../support/sample-fix.js';

const fix = sampleFix();
const model = UncertaintyModel.from(fixInputs(fix), candidatesAt(fix.position, fix.instant));

test('the shares of the causes make the whole of the variance', () => {
  const shares = model.shares();
  expect(shares.reduce((sum, s) => sum + s.share, 0)).toBeCloseTo(1, 3);
  expect(shares[0]?.cause).toBe('observer');
});

test('a cause without error leaves as much variance as its share said', () => {
  const trace = (c: readonly (readonly number[])[] | null) =>
    (c?.[0]?.[0] ?? 0) + (c?.[1]?.[1] ?? 0);
  const before = trace(model.fix().covariance);
  const observer = model.shares().find((s) => s.cause === 'observer');
  // Weights change with the budget, so what is left can only be less than the linear share says.
  const after = trace(model.fix({ observer: 0.5 }).covariance);
  expect(after).toBeLessThan(before);
  expect(after).toBeGreaterThanOrEqual(before * (1 - 0.75 * (observer?.share ?? 0)) * 0.9);
});

test('one more sight never makes the region larger, and the best crossing comes first', () => {
  const gains = model.gains();
  expect(gains.length).toBeGreaterThan(5);
  for (const gain of gains) expect(gain.areaFactor).toBeLessThanOrEqual(1.0001);
  const areas = gains.map((g) => g.areaFactor);
  expect(areas).toEqual([...areas].sort((a, b) => a - b));
});

test('by day only what can be seen by day is offered', () => {
  const noon = candidatesAt(fix.position, fix.instant.plus(Duration.hours(6)));
  expect(noon.map((c) => c.body)).toContain('Sun');
  expect(noon.every((c) => ['Sun', 'Moon', 'Venus'].includes(c.body))).toBe(true);
});
