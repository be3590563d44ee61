import { seededRandom } from '../../core/fix/random.js';

/** The n-th reading of a seed: a third at the turn of the drum, one in eight off the arc. */
export function trainerReading(seed: number, n: number): number {
  const random = seededRandom(seed * 7919 + n);
  if (random.uniform() < 1 / 8) return -(1 + random.below(280)) / 600;
  const degree = random.below(118);
  const turn = random.uniform() < 1 / 3;
  const tenth = turn
    ? random.below(2)
      ? 540 + random.below(60)
      : random.below(60)
    : random.below(600);
  return degree + tenth / 600;
}
