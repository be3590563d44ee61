import { linearRegression, mean } from 'simple-statistics';
import type { Estimate } from './intervals.js';
import { studentT, studentTails } from './quantiles.js';

/** A straight line through points by least squares. */
export interface LineFit {
  readonly intercept: Estimate;
  readonly slope: Estimate;
  /** Standard deviation of the points about the line. */
  readonly scatter: number;
  /** Probability of a slope at least as steep if there were none. */
  readonly pValue: number;
}

/**
 * Straight line by least squares, with Student's intervals of slope and height and the scatter about it.
 * @returns null with fewer than three points or all at one x
 */
export function lineFit(x: readonly number[], y: readonly number[], level = 0.95): LineFit | null {
  const n = x.length;
  if (n < 3 || x.every((v) => v === x[0])) return null;
  const { m, b } = linearRegression(x.map((v, i) => [v, y[i] as number]));
  const middle = mean(x as number[]);
  const spread = x.reduce((s, v) => s + (v - middle) ** 2, 0);
  const rest = x.reduce((s, v, i) => s + ((y[i] as number) - b - m * v) ** 2, 0);
  const scatter = Math.sqrt(rest / (n - 2));
  const slopeError = scatter / Math.sqrt(spread);
  const interceptError = scatter * Math.sqrt(1 / n + middle ** 2 / spread);
  const t = studentT(level, n - 2);
  const around = (value: number, error: number): Estimate => ({
    value,
    low: value - t * error,
    high: value + t * error,
    level,
    n,
  });
  return {
    intercept: around(b, interceptError),
    slope: around(m, slopeError),
    scatter,
    pValue: slopeError === 0 ? 0 : studentTails(m / slopeError, n - 2),
  };
}
