import { mean, median, sampleStandardDeviation } from 'simple-statistics';
import { normalBelow, normalTails } from './quantiles.js';

/** Outcome of a test: its statistic and how probable one at least as extreme is if nothing is wrong. */
export interface CheckResult {
  readonly statistic: number;
  readonly pValue: number;
}

/**
 * Runs about the median, in the order given: too few speak of drift, too many of readings made to agree.
 * A. Wald and J. Wolfowitz, Ann. Math. Statist. 11 (1940) 147, normal approximation without correction.
 * Values equal to the median count as above it.
 * @returns null when all values lie on one side
 */
export function runsCheck(values: readonly number[]): (CheckResult & { runs: number }) | null {
  if (values.length < 2) return null;
  const middle = median(values as number[]);
  const above = values.map((v) => v >= middle);
  const n1 = above.filter(Boolean).length;
  const n2 = above.length - n1;
  if (n1 === 0 || n2 === 0) return null;
  const runs = 1 + above.slice(1).filter((a, i) => a !== above[i]).length;
  const n = n1 + n2;
  const expected = (2 * n1 * n2) / n + 1;
  const variance = (2 * n1 * n2 * (2 * n1 * n2 - n)) / (n * n * (n - 1));
  if (variance <= 0) return null;
  const statistic = (runs - expected) / Math.sqrt(variance);
  return { runs, statistic, pValue: normalTails(statistic) };
}

/**
 * Anderson–Darling test of normality, mean and standard deviation estimated. The statistic is corrected and turned
 * into a probability as by R. B. D'Agostino and M. A. Stephens, Goodness-of-Fit Techniques (1986), table 4.9.
 * @returns null with fewer than 8 values or no scatter
 */
export function normalityCheck(values: readonly number[]): CheckResult | null {
  const n = values.length;
  if (n < 8) return null;
  const sd = sampleStandardDeviation(values as number[]);
  if (!(sd > 0)) return null;
  const middle = mean(values as number[]);
  const z = values.map((v) => (v - middle) / sd).sort((a, b) => a - b);
  const sum = z.reduce((s, v, i) => {
    const opposite = z[n - 1 - i] as number;
    return s + (2 * i + 1) * (Math.log(normalBelow(v)) + Math.log(normalBelow(-opposite)));
  }, 0);
  const plain = -n - sum / n;
  const statistic = plain * (1 + 0.75 / n + 2.25 / n ** 2);
  return { statistic, pValue: andersonDarlingTail(statistic) };
}

function andersonDarlingTail(a: number): number {
  if (a < 0.2) return 1 - Math.exp(-13.436 + 101.14 * a - 223.73 * a * a);
  if (a < 0.34) return 1 - Math.exp(-8.318 + 42.796 * a - 59.938 * a * a);
  if (a < 0.6) return Math.exp(0.9177 - 4.279 * a - 1.38 * a * a);
  return Math.exp(1.2937 - 5.709 * a + 0.0186 * a * a);
}

/** J. Durbin and G. S. Watson, Biometrika 37 (1950): 2 where neighbours do not resemble each other, less where they do. */
export function durbinWatson(residuals: readonly number[]): number {
  const steps = residuals.slice(1).reduce((s, v, i) => s + (v - (residuals[i] as number)) ** 2, 0);
  const squares = residuals.reduce((s, v) => s + v * v, 0);
  return squares === 0 ? NaN : steps / squares;
}
