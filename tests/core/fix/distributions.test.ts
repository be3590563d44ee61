import { describe, expect, test } from 'vitest';
import {
  chi2Cdf,
  chi2Quantile,
  fCdf,
  fQuantile,
  logGamma,
  normalCdf,
  normalTwoSided,
  OutOfRangeError,
  studentTwoSided,
} from 'cocked-hat';
import { pythonJson } from '../../support/python.js';

/** Against PyPI scipy 1.17.1, scipy.stats and scipy.special. */
const LEVELS = [0.01, 0.1, 0.39, 0.5, 0.75, 0.9, 0.95, 0.99, 0.999];
const DOF = [1, 2, 3, 4, 5, 10, 30, 200];

describe('distributions agree with scipy', () => {
  const scipy = pythonJson<
    Record<'chi2' | 'chi2cdf' | 'f' | 'fcdf' | 'norm' | 't' | 'lgamma', number[]>
  >(
    `from scipy import stats, special
L, D = given['levels'], given['dof']
answer = {
 'chi2': [float(stats.chi2.ppf(p, d)) for d in D for p in L],
 'chi2cdf': [float(stats.chi2.cdf(p * 3 * d, d)) for d in D for p in L],
 'f': [float(stats.f.ppf(p, 2, d)) for d in D for p in L] + [float(stats.f.ppf(p, 3, d)) for d in D for p in L],
 'fcdf': [float(stats.f.cdf(4 * p, 3, d)) for d in D for p in L],
 'norm': [float(stats.norm.ppf((1 + p) / 2)) for p in L] + [float(stats.norm.cdf(3 * p - 2)) for p in L],
 't': [float(stats.t.ppf((1 + p) / 2, d)) for d in D for p in L],
 'lgamma': [float(special.gammaln(x / 4)) for x in range(1, 80)]}`,
    { levels: LEVELS, dof: DOF },
  );
  const grid = (f: (p: number, d: number) => number) =>
    DOF.flatMap((d) => LEVELS.map((p) => f(p, d)));
  /** Relative 1e-9: far finer than a region is drawn, coarser than double precision. */
  const same = (ours: number[], theirs: number[]) => {
    expect(ours).toHaveLength(theirs.length);
    ours.forEach((x, i) =>
      expect(Math.abs(x - (theirs[i] as number))).toBeLessThan(1e-9 * Math.max(1e-3, Math.abs(x))),
    );
  };
  test('χ² quantiles and probabilities', () => {
    same(grid(chi2Quantile), scipy.chi2);
    same(
      grid((p, d) => chi2Cdf(p * 3 * d, d)),
      scipy.chi2cdf,
    );
  });
  test('F quantiles and probabilities', () => {
    same([...grid((p, d) => fQuantile(p, 2, d)), ...grid((p, d) => fQuantile(p, 3, d))], scipy.f);
    same(
      grid((p, d) => fCdf(4 * p, 3, d)),
      scipy.fcdf,
    );
  });
  test('normal and Student’s t', () => {
    same([...LEVELS.map(normalTwoSided), ...LEVELS.map((p) => normalCdf(3 * p - 2))], scipy.norm);
    same(grid(studentTwoSided), scipy.t);
  });
  test('the logarithm of the gamma function', () => {
    same(
      Array.from({ length: 79 }, (_, i) => logGamma((i + 1) / 4)),
      scipy.lgamma,
    );
  });
});

test('a level must be a probability', () => {
  for (const level of [0, 1, 95, -0.5, NaN])
    expect(() => chi2Quantile(level, 2)).toThrow(OutOfRangeError);
});
