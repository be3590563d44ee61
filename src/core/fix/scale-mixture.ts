import {
  at,
  dot,
  inverse,
  type Matrix,
  multiply,
  times,
  transpose,
  zeros,
  cholesky,
  logDeterminant,
} from './matrix.js';
import { quadratic, type Scale } from './scales.js';
import type { PriorKernel, Solution } from './solve.js';
import { offset } from './sphere.js';

/** The position for one trial scatter, and how well that scatter explains the altitudes. */
interface Component {
  readonly weight: number;
  readonly mean: readonly [number, number];
  readonly covariance: Matrix;
}

/** The position with the scatter integrated out: a sum of normal densities, minutes of arc about the solution. */
export interface Mixture {
  readonly components: readonly Component[];
  readonly mean: [number, number];
  readonly covariance: Matrix;
  /** Covariance at the middle scatter: the shape of the region. */
  readonly shape: Matrix;
}

/** Integrates the scatter out of a linearised fix whose covariance has a part that does not scale. */
export function scaleMixture(
  s: Solution,
  list: readonly Scale[],
  prior: PriorKernel | undefined,
): Mixture {
  const j = s.evaluation.design;
  const raw = s.evaluation.residuals;
  const parts = list.map((scale) => {
    const normal = multiply(transpose(j), multiply(scale.weight, j));
    const right = times(transpose(j), times(scale.weight, raw));
    let constant = quadratic(scale.weight, raw);
    if (prior) {
      const o = offset(s.latDeg, s.lonDeg, prior.latDeg, prior.lonDeg);
      const d = [o.northArcmin, o.eastArcmin];
      const pull = times(prior.information, d);
      constant += dot(d, pull);
      for (const a of [0, 1]) {
        right[a] = (right[a] as number) + (pull[a] as number);
        for (const b of [0, 1]) (normal[a] as number[])[b]! += at(prior.information, a, b);
      }
    }
    const covariance = inverse(normal) as Matrix;
    const mean = times(covariance, right);
    const log =
      scale.logFront -
      0.5 * (constant - dot(mean, right)) -
      0.5 * logDeterminant(cholesky(normal) as Matrix);
    return { log, mean: [mean[0] as number, mean[1] as number] as [number, number], covariance };
  });
  const top = Math.max(...parts.map((p) => p.log));
  const total = parts.reduce((sum, p) => sum + Math.exp(p.log - top), 0);
  const components = parts.map(({ log, mean, covariance }) => ({
    weight: Math.exp(log - top) / total,
    mean,
    covariance,
  }));
  return { components, ...summary(components) };
}

function summary(components: readonly Component[]): Omit<Mixture, 'components'> {
  const mean: [number, number] = [0, 0];
  for (const c of components) for (const a of [0, 1] as const) mean[a] += c.weight * c.mean[a];
  const covariance = zeros(2);
  for (const c of components)
    for (const a of [0, 1] as const)
      for (const b of [0, 1] as const)
        (covariance[a] as number[])[b]! +=
          c.weight * (at(c.covariance, a, b) + (c.mean[a] - mean[a]) * (c.mean[b] - mean[b]));
  let sum = 0;
  const middle = components.find((c) => (sum += c.weight) >= 0.5) ?? components.at(-1);
  return { mean, covariance, shape: middle?.covariance ?? covariance };
}

const RINGS = 20;
const SPOKES = 12;

/** The k for which the ellipse of the mixture's shape about its mean holds `level` of its probability. */
export function mixtureQuantile(m: Mixture, level: number): number {
  const metric = inverse(m.shape) as Matrix;
  const found: { k2: number; weight: number }[] = [];
  for (const c of m.components) {
    if (c.weight < 1e-7) continue;
    const l = cholesky(c.covariance) as Matrix;
    for (let r = 0; r < RINGS; r++) {
      // Radii at the middle of equal slices of probability of the two-dimensional normal.
      const radius = Math.sqrt(-2 * Math.log1p(-(r + 0.5) / RINGS));
      for (let a = 0; a < SPOKES; a++) {
        const t = (2 * Math.PI * (a + (r % 2) / 2)) / SPOKES;
        const z = [radius * Math.cos(t), radius * Math.sin(t)];
        const d = times(l, z).map((v, i) => v + (c.mean[i] as number) - (m.mean[i] as number));
        found.push({ k2: dot(d, times(metric, d)), weight: c.weight / (RINGS * SPOKES) });
      }
    }
  }
  found.sort((a, b) => a.k2 - b.k2);
  const total = found.reduce((s, f) => s + f.weight, 0);
  let sum = 0;
  for (const f of found) {
    sum += f.weight / total;
    if (sum >= level) return Math.sqrt(f.k2);
  }
  return Math.sqrt(found.at(-1)?.k2 ?? 0);
}
