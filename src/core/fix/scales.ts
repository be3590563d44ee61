import { type AltitudeRow, covariance, type Evaluation } from './altitude-model.js';
import { cholesky, inverse, logDeterminant, type Matrix } from './matrix.js';
import { withoutBias } from './solve.js';

/** One trial size of the sights' own errors: factor on the stated one, weights, log of what multiplies the likelihood. */
export interface Scale {
  readonly factor: number;
  /** Inverse covariance, a common bias projected out when it is an unknown. */
  readonly weight: Matrix;
  readonly logFront: number;
}

/**
 * The trial sizes of the sights' own scatter to integrate over: the stated one alone when it is taken as known;
 * otherwise factors from 1/20 to 20, evenly in the logarithm (density 1/σ between these bounds, the usual
 * reference prior; H. Jeffreys, *Theory of Probability*, 3rd ed. (1961), sec. 3.1).
 */
export function scales(
  rows: readonly AltitudeRow[],
  e: Evaluation,
  { estimateSigma, commonBias }: { estimateSigma: boolean; commonBias: boolean },
): Scale[] {
  const factors = estimateSigma ? Array.from({ length: 61 }, (_, k) => 20 ** ((k - 30) / 30)) : [1];
  return factors.map((factor) => {
    const c = covariance(rows, e, factor);
    const full = inverse(c) as Matrix;
    const total = full.flat().reduce((s, v) => s + v, 0);
    return {
      factor,
      weight: commonBias ? withoutBias(full) : full,
      logFront:
        -0.5 * logDeterminant(cholesky(c) as Matrix) - (commonBias ? 0.5 * Math.log(total) : 0),
    };
  });
}

/** rᵀ W r. */
export function quadratic(w: Matrix, r: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < r.length; i++) {
    const row = w[i] as number[];
    let inner = 0;
    for (let j = 0; j < r.length; j++) inner += (row[j] as number) * (r[j] as number);
    sum += inner * (r[i] as number);
  }
  return sum;
}

/** log Σ exp(x), safe from under- and overflow. */
export function logSumExp(x: readonly number[]): number {
  const top = Math.max(...x);
  return top + Math.log(x.reduce((s, v) => s + Math.exp(v - top), 0));
}
