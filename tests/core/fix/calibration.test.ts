import { describe, expect, test } from 'vitest';
import { LEVELS, measure, SCENARIOS, shareSigma } from '../../bench/calibration-cases.js';

/** The full measurement is `npm run calibration`; here fewer rounds, the same seeds every time. */
const ROUNDS = 400;

describe('regions hold the true position as often as they say', () => {
  for (const [i, s] of SCENARIOS.entries())
    test(`${s.name}, ${s.sights} sights, ${s.azimuths} azimuths`, () => {
      const rounds = ROUNDS / s.cost;
      const { held } = measure(s, rounds, 1000 + i);
      LEVELS.forEach((level, k) => {
        // One percentage point as promised, and what chance does to so few rounds (3 standard deviations).
        const room = 0.01 + 3 * shareSigma(level, rounds);
        expect(Math.abs((held[k] as number) - level)).toBeLessThan(room);
      });
    });

  test('a region that is too small is caught by the same count', () => {
    const s = SCENARIOS.find((x) => x.name === 'sigma known' && x.sights === 4);
    const wrong = { ...(s as NonNullable<typeof s>) };
    const rounds = ROUNDS;
    const { held } = measure(
      {
        ...wrong,
        round: (rng) => {
          const { result, truth } = (s as NonNullable<typeof s>).round(rng);
          // The 90 % region passed off as the 95 % one.
          const narrow = Object.create(result, {
            region: { value: (level: number) => result.region(level - 0.05) },
          });
          return { result: narrow, truth };
        },
      },
      rounds,
      7,
    );
    expect(Math.abs((held[1] as number) - 0.95)).toBeGreaterThan(
      0.01 + 3 * shareSigma(0.95, rounds),
    );
  });
});
