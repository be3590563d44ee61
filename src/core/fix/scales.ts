import { type AltitudeRow, covariance, type Evaluation } from './altitude-model.js';
import {
  at,
  cholesky,
  inverse,
  logDeterminant,
  multiply,
  transpose,
  type Matrix,
} from './matrix.js';
import { withoutBias } from './solve.js';

/** One trial size of the sights' own errors: factor on the stated one, weights, log of what multiplies the likelihood. */
export interface Scale {
  readonly factor: number;
  /** Inverse covariance, a common bias projected out when it is an unknown. */
  readonly weight: Matrix;
  readonly logFront: number;
  /**
   * Set where the scatter scales the whole covariance: it is then integrated out in closed form and the log likelihood is
   * −(freedom/2) log rᵀWr, freedom the number of altitudes less one for a bias.
   */
  readonly freedom?: number;
}

/**
 * The trial sizes of the sights' own scatter to integrate over: the stated one alone when it is taken as known;
 * otherwise factors from 1/20 to 20, evenly in the logarithm, weighted with Jeffreys' prior √½tr(QV)² dσ², Q the precision left
 * when the unknowns are taken out, V the part of the covariance that scales. It is 1/σ where all of it does, and fades out where
 * the shared errors alone explain the residuals. Source: H. Jeffreys, *Theory of Probability*, 3rd ed. (1961), sec. 3.10.
 */
export function scales(
  rows: readonly AltitudeRow[],
  e: Evaluation,
  options: { estimateSigma: boolean; commonBias: boolean; wholeScales: boolean },
): Scale[] {
  const { estimateSigma, commonBias, wholeScales } = options;
  const factors =
    estimateSigma && !wholeScales
      ? Array.from({ length: 41 }, (_, k) => 20 ** ((k - 20) / 20))
      : [1];
  return factors.map((factor) => {
    const c = covariance(rows, e, factor);
    const full = inverse(c) as Matrix;
    const total = full.flat().reduce((s, v) => s + v, 0);
    return {
      factor,
      weight: commonBias ? withoutBias(full) : full,
      logFront:
        -0.5 * logDeterminant(cholesky(c) as Matrix) -
        (commonBias ? 0.5 * Math.log(total) : 0) +
        (factors.length > 1 ? logJeffreys(rows, e, full, factor, commonBias) : 0),
      ...(estimateSigma && wholeScales ? { freedom: rows.length - +commonBias } : {}),
    };
  });
}

/** Log of Jeffreys' prior of the scatter, by the logarithm of the factor. */
function logJeffreys(
  rows: readonly AltitudeRow[],
  e: Evaluation,
  weight: Matrix,
  factor: number,
  commonBias: boolean,
): number {
  const design = e.design.map((row) => (commonBias ? [...row, 1] : row));
  const wx = multiply(weight, design);
  const unknowns = inverse(multiply(transpose(design), wx));
  const taken = unknowns ? multiply(wx, multiply(unknowns, transpose(wx))) : null;
  const scaled = weight.map((row, i) =>
    row.map(
      (v, j) => (v - (taken ? at(taken, i, j) : 0)) * (rows[j] as AltitudeRow).ownSigmaArcmin ** 2,
    ),
  );
  let trace = 0;
  for (let i = 0; i < scaled.length; i++)
    for (let j = 0; j < scaled.length; j++) trace += at(scaled, i, j) * at(scaled, j, i);
  return 2 * Math.log(factor) + 0.5 * Math.log(trace / 2);
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
