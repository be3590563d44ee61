import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { OutOfRangeError } from '../../core/units/index.js';
import { normalQuantile, studentT } from './quantiles.js';
import type { Estimate } from './intervals.js';

/** What is fitted: values, fixed terms by column, and groupings whose levels each add an error of their own. */
export interface MixedData {
  readonly y: readonly number[];
  /** Fixed terms by name, one number a value. */
  readonly fixed: Readonly<Record<string, readonly number[]>>;
  /** Groupings by name: the level of each value. */
  readonly random: Readonly<Record<string, readonly string[]>>;
  /** Weights of the values, 1 unless told. */
  readonly weights?: readonly number[];
}

/** A fitted mixed model: fixed effects with their covariance, variances of the random ones. */
export interface MixedFit {
  /** Fixed terms; intervals by Student's t with `dof` degrees of freedom. */
  readonly fixed: Readonly<Record<string, Estimate>>;
  /** Predicted effect of each level of each grouping. */
  readonly effects: Readonly<Record<string, ReadonlyMap<string, Estimate>>>;
  /** Standard deviation between the levels of each grouping, and of a single value of weight 1. */
  readonly sigmaBetween: Readonly<Record<string, number>>;
  readonly sigma: number;
  readonly dof: number;
  /** Value less fixed terms less effects. */
  readonly residuals: readonly number[];
  /** Covariance of the fixed terms, in their order. */
  readonly covariance: readonly (readonly number[])[];
  /** Fixed term plus a level's effect, with the interval of the sum. */
  sum(term: string, grouping: string, level: string): Estimate;
}

/** Below this ratio of variances a grouping adds nothing that can be told. */
const LEAST_LOG_RATIO = -14;
const MOST_LOG_RATIO = 8;

/**
 * Linear mixed model with independent random intercepts, by restricted maximum likelihood: Henderson's equations
 * (C. R. Henderson, Biometrics 31 (1975) 423), the ratios of variances by golden-section search in turn. What is
 * known as partial pooling: a level seen often keeps its own mean, a level seen twice is drawn to the common one.
 * @throws OutOfRangeError when there are not more values than fixed terms, or fixed terms depend on each other
 */
export function mixedModel(data: MixedData, level = 0.95): MixedFit {
  const design = designOf(data);
  const ratios = search(design);
  return finish(design, solveHenderson(design, ratios), ratios, level);
}

interface Design {
  readonly y: Float64Array;
  readonly fixedNames: readonly string[];
  readonly groupings: readonly {
    readonly name: string;
    readonly levels: readonly string[];
    readonly from: number;
  }[];
  /** Rows of fixed terms and level marks, weighted. */
  readonly rows: readonly (readonly [column: number, value: number][])[];
  readonly width: number;
  /** Cross products of the weighted columns, and with y. */
  readonly cross: Matrix;
  readonly right: Matrix;
  readonly yy: number;
  readonly raw: MixedData;
}

function designOf(data: MixedData): Design {
  const fixedNames = Object.keys(data.fixed);
  const n = data.y.length;
  if (n <= fixedNames.length)
    throw new OutOfRangeError(`${n} values cannot carry ${fixedNames.length} terms`);
  let width = fixedNames.length;
  const groupings = Object.entries(data.random).map(([name, of]) => {
    const levels = [...new Set(of)];
    const from = width;
    width += levels.length;
    return { name, levels, from };
  });
  const places = groupings.map((g) => new Map(g.levels.map((l, i) => [l, g.from + i])));
  const rows = data.y.map((_, i) => {
    const w = Math.sqrt(data.weights?.[i] ?? 1);
    const row: [number, number][] = fixedNames.map((name, j) => [
      j,
      (data.fixed[name]?.[i] ?? NaN) * w,
    ]);
    groupings.forEach((g, k) =>
      row.push([places[k]?.get(data.random[g.name]?.[i] as string) as number, w]),
    );
    return row;
  });
  const y = Float64Array.from(data.y, (v, i) => v * Math.sqrt(data.weights?.[i] ?? 1));
  const cross = Matrix.zeros(width, width);
  const right = Matrix.zeros(width, 1);
  rows.forEach((row, i) => {
    for (const [a, va] of row) {
      right.set(a, 0, right.get(a, 0) + va * (y[i] ?? NaN));
      for (const [b, vb] of row) cross.set(a, b, cross.get(a, b) + va * vb);
    }
  });
  const yy = y.reduce((s, v) => s + v * v, 0);
  return { y, fixedNames, groupings, rows, width, cross, right, yy, raw: data };
}

interface Solved {
  readonly solution: Matrix;
  readonly cholesky: CholeskyDecomposition;
  readonly sigma2: number;
  /** Twice the negative log of the restricted likelihood, but for a constant. */
  readonly deviance: number;
}

/** @param logRatios natural log of (variance between levels)/(variance of a value) of each grouping */
function solveHenderson(d: Design, logRatios: readonly number[]): Solved {
  const c = d.cross.clone();
  let logPrior = 0;
  d.groupings.forEach((g, k) => {
    const ratio = Math.exp(logRatios[k] ?? 0);
    logPrior += g.levels.length * Math.log(ratio);
    for (let j = g.from; j < g.from + g.levels.length; j++) c.set(j, j, c.get(j, j) + 1 / ratio);
  });
  const cholesky = new CholeskyDecomposition(c);
  if (!cholesky.isPositiveDefinite() || smallestPivot(cholesky, c) < 1e-10)
    throw new OutOfRangeError('the fixed terms depend on each other: one of them can be left out');
  const solution = cholesky.solve(d.right);
  const free = d.raw.y.length - d.fixedNames.length;
  const rest = d.yy - solution.transpose().mmul(d.right).get(0, 0);
  const sigma2 = Math.max(rest, 0) / free;
  const logDet = 2 * cholesky.lowerTriangularMatrix.diagonal().reduce((s, v) => s + Math.log(v), 0);
  return { solution, cholesky, sigma2, deviance: free * Math.log(sigma2) + logDet + logPrior };
}

function smallestPivot(cholesky: CholeskyDecomposition, c: Matrix): number {
  const pivots = cholesky.lowerTriangularMatrix.diagonal();
  return Math.min(...pivots.map((p, i) => (p * p) / c.get(i, i)));
}

/** The logs of the ratios that make the restricted likelihood greatest: each in turn, in ever narrower bounds. */
function search(d: Design): number[] {
  const at = d.groupings.map(() => -1);
  const single = d.groupings.length === 1;
  for (let pass = 0, reach = Infinity; pass < 25; pass++) {
    let moved = 0;
    for (const k of at.keys()) {
      const here = at[k] ?? 0;
      const best = golden(
        (v) =>
          solveHenderson(
            d,
            at.map((r, j) => (j === k ? v : r)),
          ).deviance,
        Math.max(LEAST_LOG_RATIO, here - reach),
        Math.min(MOST_LOG_RATIO, here + reach),
        single ? 1e-7 : 1e-5,
      );
      moved = Math.max(moved, Math.abs(best - here));
      at[k] = best;
    }
    reach = Math.max(2 * moved, 0.01);
    if (single || moved < 2e-5) break;
  }
  return at;
}

/** Least value of a function with one dip, by golden section (J. Kiefer, Proc. AMS 4 (1953) 502). */
function golden(f: (x: number) => number, low: number, high: number, tolerance: number): number {
  const g = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  let [c, d] = [b - g * (b - a), a + g * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  while (b - a > tolerance) {
    if (fc < fd) {
      [b, d, fd] = [d, c, fc];
      c = b - g * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + g * (b - a);
      fd = f(d);
    }
  }
  return (a + b) / 2;
}

function finish(d: Design, s: Solved, logRatios: readonly number[], level: number): MixedFit {
  const inverse = s.cholesky.solve(Matrix.eye(d.width)).mul(s.sigma2);
  const n = d.raw.y.length;
  const p = d.fixedNames.length;
  const most = Math.max(0, ...d.groupings.map((g) => g.levels.length));
  const dof = most - p >= 1 ? most - p : n - p;
  const t = studentT(level, dof);
  const z = normalQuantile(1 - (1 - level) / 2);
  const estimate = (columns: readonly number[], quantile: number): Estimate => {
    const value = columns.reduce((sum, j) => sum + s.solution.get(j, 0), 0);
    let variance = 0;
    for (const a of columns) for (const b of columns) variance += inverse.get(a, b);
    const half = quantile * Math.sqrt(Math.max(variance, 0));
    return { value, low: value - half, high: value + half, level, n };
  };
  const place = (grouping: string, of: string): number => {
    const g = d.groupings.find((x) => x.name === grouping);
    const i = g?.levels.indexOf(of) ?? -1;
    if (!g || i < 0) throw new OutOfRangeError(`there is no level '${of}' in '${grouping}'`);
    return g.from + i;
  };
  return {
    fixed: Object.fromEntries(d.fixedNames.map((name, j) => [name, estimate([j], t)])),
    effects: Object.fromEntries(
      d.groupings.map((g) => [
        g.name,
        new Map(g.levels.map((l, i) => [l, estimate([g.from + i], z)] as const)),
      ]),
    ),
    sigmaBetween: Object.fromEntries(
      d.groupings.map((g, k) => [g.name, Math.sqrt(s.sigma2 * Math.exp(logRatios[k] ?? 0))]),
    ),
    sigma: Math.sqrt(s.sigma2),
    dof,
    residuals: d.rows.map((row, i) => {
      const fitted = row.reduce((sum, [j, v]) => sum + v * s.solution.get(j, 0), 0);
      return ((d.y[i] ?? NaN) - fitted) / Math.sqrt(d.raw.weights?.[i] ?? 1);
    }),
    covariance: d.fixedNames.map((_, a) => d.fixedNames.map((__, b) => inverse.get(a, b))),
    sum: (term, grouping, of) => estimate([d.fixedNames.indexOf(term), place(grouping, of)], z),
  };
}
