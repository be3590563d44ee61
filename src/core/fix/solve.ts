import { type AltitudeRow, covariance, evaluate, type Evaluation } from './altitude-model.js';
import { at, dot, eigen2, inverse, type Matrix, multiply, times, transpose } from './matrix.js';
import { move, offset } from './sphere.js';

/** A position known beforehand, as minutes of arc north and east with their inverse covariance. */
export interface PriorKernel {
  readonly latDeg: number;
  readonly lonDeg: number;
  /** Inverse covariance, per square minute of arc, rows north, east. */
  readonly information: Matrix;
}

export interface SolveOptions {
  readonly start: { readonly latDeg: number; readonly lonDeg: number };
  readonly prior?: PriorKernel | undefined;
  /** Estimate one error common to all altitudes as a third unknown. */
  readonly commonBias: boolean;
  readonly ownScale?: number;
}

/** The least-squares position and all that judges it. Angles in minutes of arc unless named. */
export interface Solution {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly evaluation: Evaluation;
  /** Covariance of the altitudes, its inverse, and the n × p design matrix (north, east and perhaps bias). */
  readonly altitudeCovariance: Matrix;
  readonly weight: Matrix;
  readonly design: Matrix;
  /** Covariance of the unknowns; null where the lines leave a direction open. */
  readonly unknowns: Matrix | null;
  /** Residuals at the solution, bias taken off. */
  readonly residuals: readonly number[];
  readonly biasArcmin: number;
  /** Weighted sum of squares, the prior's share included. */
  readonly chi2: number;
  readonly iterations: number;
  readonly converged: boolean;
  /** Normal matrix of north and east, bias eliminated. */
  readonly normal: Matrix;
}

/** Ratio of the normal matrix's eigenvalues below which a direction counts as open: lines parallel to 0.06°. */
const OPEN_DIRECTION = 1e-6;
const LONGEST_STEP_ARCMIN = 900;
/** What a fix may still want to move and count as settled: a tenth of the least figure printed. */
const SETTLED_ARCMIN = 0.01;

/**
 * Generalised least squares on the altitudes, by Gauss–Newton steps along great circles, halved until the sum of
 * squares falls; iterated until a step is below 10⁻⁶′; what then still wants to move by 0.01′ has not settled.
 * Source: G. Strang and K. Borre, *Linear Algebra, Geodesy, and GPS* (1997), ch. 11 (weighted normal equations).
 */
export function solve(rows: readonly AltitudeRow[], options: SolveOptions): Solution {
  let { latDeg, lonDeg } = options.start;
  let state = linearise(rows, latDeg, lonDeg, options);
  let converged = false;
  let iterations = 0;
  let length = Infinity;
  while (!converged && iterations < 60) {
    iterations++;
    const [north, east] = step(state.normal, state.right);
    length = Math.hypot(north, east);
    let factor = Math.min(1, LONGEST_STEP_ARCMIN / Math.max(length, 1e-300));
    for (let tries = 0; ; tries++) {
      const next = move(latDeg, lonDeg, north * factor, east * factor);
      const trial = linearise(rows, next.latDeg, next.lonDeg, options);
      // The sum of squares is compared with the weights of this step: they depend on the place, a little.
      if (trial.cost <= state.cost * (1 + 1e-9) + 1e-12 || tries >= 12) {
        ({ latDeg, lonDeg } = next);
        state = trial;
        break;
      }
      factor /= 2;
    }
    converged = length * factor < 1e-6;
  }
  // Where lines contradict each other the weights, which depend on the place, may hold the last steps back for ever.
  const settled = converged || length < SETTLED_ARCMIN;
  return finish(state, latDeg, lonDeg, options, iterations, settled);
}

interface Linear {
  readonly e: Evaluation;
  readonly c: Matrix;
  readonly w: Matrix;
  readonly normal: Matrix;
  readonly right: readonly [number, number];
  readonly cost: number;
}

/** Weights with a common altitude error projected out: W − W1(1ᵀW1)⁻¹1ᵀW. */
export function withoutBias(w: Matrix): Matrix {
  const sums = w.map((row) => row.reduce((s, v) => s + v, 0));
  const total = sums.reduce((s, v) => s + v, 0);
  return w.map((row, i) =>
    row.map((v, j) => v - ((sums[i] as number) * (sums[j] as number)) / total),
  );
}

function linearise(
  rows: readonly AltitudeRow[],
  latDeg: number,
  lonDeg: number,
  { prior, commonBias, ownScale }: SolveOptions,
): Linear {
  const e = evaluate(rows, latDeg, lonDeg);
  const c = covariance(rows, e, ownScale ?? 1);
  const w = inverse(c);
  if (!w)
    throw new RangeError(
      'the covariance of the altitudes is singular: give every sight an error of its own',
    );
  const wr = times(commonBias ? withoutBias(w) : w, e.residuals);
  const jt = transpose(e.design);
  const normal = multiply(jt, multiply(commonBias ? withoutBias(w) : w, e.design));
  const [n = 0, ea = 0] = times(jt, wr);
  let right: [number, number] = [n, ea];
  let cost = dot(e.residuals, wr);
  if (prior) {
    const { northArcmin, eastArcmin } = offset(latDeg, lonDeg, prior.latDeg, prior.lonDeg);
    const pull = times(prior.information, [northArcmin, eastArcmin]);
    right = [right[0] + (pull[0] as number), right[1] + (pull[1] as number)];
    cost += dot([northArcmin, eastArcmin], pull);
    for (const i of [0, 1])
      for (const j of [0, 1])
        (normal[i] as number[])[j] = at(normal, i, j) + at(prior.information, i, j);
  }
  return { e, c, w, normal, right, cost };
}

/** Solution of the normal equations; along the well-determined direction only where the other is open. */
function step(normal: Matrix, right: readonly [number, number]): [number, number] {
  const { major, minor, angleRad } = eigen2(normal);
  const [cos, sin] = [Math.cos(angleRad), Math.sin(angleRad)];
  const along = (right[0] * cos + right[1] * sin) / Math.max(major, 1e-300);
  const across = isOpen(normal) ? 0 : (-right[0] * sin + right[1] * cos) / minor;
  return [along * cos - across * sin, along * sin + across * cos];
}

/** True where the lines leave one direction undetermined. */
export function isOpen(normal: Matrix): boolean {
  const { major, minor } = eigen2(normal);
  return !(minor > OPEN_DIRECTION * major);
}

function finish(
  { e, c, w, normal, cost }: Linear,
  latDeg: number,
  lonDeg: number,
  options: SolveOptions,
  iterations: number,
  converged: boolean,
): Solution {
  const design = e.design.map((row) => (options.commonBias ? [...row, 1] : row));
  const biasArcmin = options.commonBias ? weightedMean(w, e.residuals) : 0;
  const residuals = e.residuals.map((r) => r - biasArcmin);
  return {
    latDeg,
    lonDeg,
    evaluation: e,
    altitudeCovariance: c,
    weight: w,
    design,
    unknowns: isOpen(normal) ? null : inverse(normalOf(design, w, options.prior)),
    residuals,
    biasArcmin,
    chi2: cost,
    iterations,
    converged,
    normal,
  };
}

function normalOf(design: Matrix, w: Matrix, prior: PriorKernel | undefined): Matrix {
  const m = multiply(transpose(design), multiply(w, design));
  if (prior)
    for (const i of [0, 1])
      for (const j of [0, 1]) (m[i] as number[])[j] = at(m, i, j) + at(prior.information, i, j);
  return m;
}

function weightedMean(w: Matrix, r: readonly number[]): number {
  const sums = w.map((row) => row.reduce((s, v) => s + v, 0));
  return dot(sums, r) / sums.reduce((s, v) => s + v, 0);
}
