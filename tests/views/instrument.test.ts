import fc from 'fast-check';
import { expect, test } from 'vitest';
import { drumReading } from '../../src/core/units/index.js';
import { drumPose, eyeFigures, VERNIER_SPACE } from '../../src/views/instrument/drum-pose.js';
import { judgeReading } from '../../src/views/instrument/misreading.js';

const tenths = fc.integer({ min: -3000, max: 75_000 });

test('what the eye takes down from the drawn sextant is the angle it was set to', () => {
  fc.assert(
    fc.property(tenths, (t) => {
      const { drumMinutes, ...rest } = eyeFigures(drumPose(t / 600));
      // Off the arc at a whole degree the drum stands at nought and nothing is taken from 60′.
      expect(Math.round(drumReading({ drumMinutes, ...rest }).degrees * 600)).toBe(t);
    }),
  );
});

test('the vernier line named is the one that stands in line with a line of the drum', () => {
  fc.assert(
    fc.property(tenths, (t) => {
      const { drumMinutes, vernierLine } = drumPose(t / 600);
      const miss = (k: number) => {
        const at = drumMinutes + k * VERNIER_SPACE;
        return Math.abs(at - Math.round(at));
      };
      const best = Math.min(...Array.from({ length: 10 }, (_, k) => miss(k)));
      expect(miss(vernierLine)).toBeCloseTo(best, 9);
      expect(best).toBeCloseTo(0, 9);
    }),
  );
});

test('each kind of misreading is named', () => {
  const cases: readonly (readonly [shown: number, read: number, kind: string])[] = [
    [34 + 17.6 / 60, 34 + 17.6 / 60, 'right'],
    [34 + 17.6 / 60, 34 + 17.7 / 60, 'right'],
    [34 + 58.4 / 60, 35 + 58.4 / 60, 'whole degree'],
    [35 + 1.2 / 60, 34 + 1.2 / 60, 'whole degree'],
    [34 + 17.6 / 60, 34 + 42.4 / 60, 'drum the wrong way'],
    [-1.4 / 60, -58.6 / 60, 'drum the wrong way'],
    [-1.4 / 60, 1.4 / 60, 'on and off the arc'],
    [34 + 17.6 / 60, 34 + 27.6 / 60, 'figure of the drum'],
    [34 + 17.6 / 60, 34 + 18.6 / 60, 'minute line'],
    [34 + 17.6 / 60, 34 + 17.2 / 60, 'vernier line'],
    [34 + 17.6 / 60, 51.2, 'other'],
  ];
  for (const [shown, read, kind] of cases)
    expect([shown, judgeReading(shown, read).kind]).toEqual([shown, kind]);
});

test('the turn of the drum is explained where it is the cause', () => {
  expect(judgeReading(34 + 58.4 / 60, 35 + 58.4 / 60).words).toContain('not yet reached');
  expect(judgeReading(35 + 1.2 / 60, 34 + 1.2 / 60).words).toContain('just past a line');
});
