import { seededRandom } from '../../../core/fix/random.js';

/** What a moving deck does to the hand: tilt and heave, degrees and metres, as a few waves of seeded phase. */
export interface SeaMotion {
  tiltDeg(seconds: number): number;
  heaveM(seconds: number): number;
}

/** Periods of a small vessel's roll and of a swell, seconds: from memory. */
const PERIODS = [3.1, 4.7, 7.9, 11.3] as const;
const ROLL_DEG = 2.2;
const HEAVE_M = 0.6;

export function seaMotion(sea: number, seed: number): SeaMotion {
  const random = seededRandom(seed);
  const waves = PERIODS.map((period) => ({
    period,
    roll: random.uniform() * 7,
    heave: random.uniform() * 7,
  }));
  const sum = (seconds: number, which: 'roll' | 'heave', size: number) =>
    (sea *
      size *
      waves.reduce((s, w) => s + Math.sin((2 * Math.PI * seconds) / w.period + w[which]), 0)) /
    waves.length;
  return {
    tiltDeg: (seconds) => sum(seconds, 'roll', ROLL_DEG),
    heaveM: (seconds) => sum(seconds, 'heave', HEAVE_M),
  };
}
