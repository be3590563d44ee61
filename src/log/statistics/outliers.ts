import { median, medianAbsoluteDeviation } from 'simple-statistics';

/** Beyond this modified z-score a value counts as an outlier among many. */
const LIMIT_OF_MANY = 3.5;
/** Ratio of standard deviation to median absolute deviation for normal values. */
const SIGMA_PER_MAD = 1.4826;

/**
 * Beyond this modified z-score one of `count` values counts as an outlier. Among few the robust standard deviation is
 * itself uncertain: at 3.5 one value of ten good ones was set aside in 12 sessions of 100; with 3 / count added, something
 * is set aside in 4 to 8 clean sessions of 100 (normal values; simulated for 6 to 40, tests/log/practice-session.test.ts).
 */
export const outlierLimit = (count: number): number => LIMIT_OF_MANY * (1 + 3 / Math.max(1, count));

/**
 * How far each value lies from the median in robust standard deviations.
 * B. Iglewicz and D. C. Hoaglin, How to Detect and Handle Outliers (ASQC, 1993): modified z-score, limit 3.5.
 * @param least the standard deviation is not taken smaller than this
 */
export function robustScores(values: readonly number[], least: number): number[] {
  if (values.length === 0) return [];
  const middle = median(values as number[]);
  const sigma = Math.max(least, SIGMA_PER_MAD * medianAbsoluteDeviation(values as number[]));
  return values.map((v) => (v - middle) / sigma);
}
