import { median, medianAbsoluteDeviation } from 'simple-statistics';

/** Beyond this modified z-score a value counts as an outlier. */
export const OUTLIER_LIMIT = 3.5;
/** Ratio of standard deviation to median absolute deviation for normal values. */
const SIGMA_PER_MAD = 1.4826;

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
