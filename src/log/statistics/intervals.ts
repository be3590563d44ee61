import { mean, sampleStandardDeviation } from 'simple-statistics';
import { betaQuantile, chiSquareRange, studentT, tail } from './quantiles.js';

/** An estimate with the interval that holds the true value with the probability `level`. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly level: number;
  /** Values it rests on. */
  readonly n: number;
}

/**
 * Mean with Student's interval; the ends are NaN with fewer than two values, all is NaN without any.
 * @param level probability of the interval, 0.95 unless told
 * @throws OutOfRangeError unless 0 < level < 1
 */
export function meanEstimate(values: readonly number[], level = 0.95): Estimate {
  const n = values.length;
  if (n === 0) return { value: NaN, low: NaN, high: NaN, level, n };
  const value = mean(values as number[]);
  if (n < 2) return { value, low: NaN, high: NaN, level, n };
  const half =
    (studentT(level, n - 1) * sampleStandardDeviation(values as number[])) / Math.sqrt(n);
  return { value, low: value - half, high: value + half, level, n };
}

/**
 * Standard deviation with the χ² interval for normal values; NaN with fewer than two values.
 * @param level probability of the interval, 0.95 unless told
 * @throws OutOfRangeError unless 0 < level < 1
 */
export function scatterEstimate(values: readonly number[], level = 0.95): Estimate {
  const n = values.length;
  if (n < 2) return { value: NaN, low: NaN, high: NaN, level, n };
  const value = sampleStandardDeviation(values as number[]);
  const [low, high] = chiSquareRange(level, n - 1);
  return {
    value,
    low: value * Math.sqrt((n - 1) / high),
    high: value * Math.sqrt((n - 1) / low),
    level,
    n,
  };
}

/**
 * A fraction with the exact interval of C. J. Clopper and E. S. Pearson, Biometrika 26 (1934).
 * @param hits of `n` trials
 */
export function fractionEstimate(hits: number, n: number, level = 0.95): Estimate {
  const p = tail(level);
  return {
    value: n === 0 ? NaN : hits / n,
    low: hits === 0 ? 0 : betaQuantile(p, hits, n - hits + 1),
    high: hits === n ? 1 : betaQuantile(1 - p, hits + 1, n - hits),
    level,
    n,
  };
}
