import { dipKernel, dipShortKernel } from '../../core/sextant/dip-kernel.js';
import { studentT } from '../statistics/quantiles.js';
import type { Estimate } from '../statistics/intervals.js';
import { altitudeRate, type JudgedReading } from './judged.js';

/** One single cause that would explain the residuals of a session, with its size and how well it fits. */
export interface Explanation {
  readonly cause: 'index error' | 'height of eye' | 'watch';
  /** Index error: minutes of arc more on the arc; height of eye: metres more; watch: seconds faster than noted. */
  readonly size: Estimate;
  readonly unit: '′' | 'm' | 's';
  /** Standard deviation of what is left. */
  readonly scatterArcmin: number;
  /** How likely the readings are under this cause against the best of them, 0 to 1. */
  readonly likelihood: number;
}

interface Fitted extends Omit<Explanation, 'likelihood'> {
  readonly squares: number;
}

/**
 * What single error of index, height of eye or watch would best explain the residuals, each fitted alone by least
 * squares, and how they compare (ratio of likelihoods with the scatter free: (RSS/RSS₀)^(−n/2)). A personal bias
 * has the signature of an index error over a sea horizon: they cannot be told apart.
 */
export function explanations(readings: readonly JudgedReading[], level = 0.95): Explanation[] {
  const fits = [index(readings, level), height(readings, level), watch(readings, level)].filter(
    (f): f is Fitted => f !== null,
  );
  const least = Math.min(...fits.map((f) => f.squares));
  const n = readings.length;
  return fits
    .map(({ squares, ...fit }) => ({ ...fit, likelihood: (least / squares) ** (n / 2) }))
    .sort((a, b) => b.likelihood - a.likelihood);
}

/** One coefficient through the origin. */
function proportional(
  readings: readonly JudgedReading[],
  signature: (r: JudgedReading) => number,
  level: number,
): { size: Estimate; squares: number; scatterArcmin: number } | null {
  const n = readings.length;
  const x = readings.map(signature);
  const xx = x.reduce((s, v) => s + v * v, 0);
  if (n < 2 || !(xx > 0)) return null;
  const xy = readings.reduce((s, r, i) => s + r.residualArcmin * (x[i] as number), 0);
  const value = xy / xx;
  const squares = readings.reduce(
    (s, r, i) => s + (r.residualArcmin - value * (x[i] as number)) ** 2,
    0,
  );
  const scatterArcmin = Math.sqrt(squares / (n - 1));
  const half = (studentT(level, n - 1) * scatterArcmin) / Math.sqrt(xx);
  const size = { value, low: value - half, high: value + half, level, n };
  return { size, squares, scatterArcmin };
}

function index(readings: readonly JudgedReading[], level: number): Fitted | null {
  const half = (r: JudgedReading) => (r.row.horizon === 'artificial' ? 0.5 : 1);
  const fit = proportional(readings, half, level);
  return fit && { cause: 'index error', unit: '′', ...fit };
}

/** A clock that is fast puts the noted time late: the body is not yet where the computation has it. */
function watch(readings: readonly JudgedReading[], level: number): Fitted | null {
  const fit = proportional(readings, (r) => -altitudeRate(r.row), level);
  return fit && { cause: 'watch', unit: 's', ...fit };
}

/** Eyes higher than noted by one amount throughout: the real dip is greater than the one taken off. */
function height(readings: readonly JudgedReading[], level: number): Fitted | null {
  const dips = readings.map((r) => dipOf(r));
  if (dips.every((d) => d === null)) return null;
  const lowest = Math.min(
    ...readings.flatMap((r, i) => (dips[i] ? [r.row.eyeHeightM ?? NaN] : [])),
  );
  if (Number.isNaN(lowest)) return null;
  const left = (more: number) => readings.map((r, i) => r.residualArcmin - (dips[i]?.(more) ?? 0));
  const squaresAt = (more: number) => left(more).reduce((s, v) => s + v * v, 0);
  const value = leastOf(squaresAt, -lowest, 60);
  const squares = squaresAt(value);
  const n = readings.length;
  const scatterArcmin = Math.sqrt(squares / Math.max(1, n - 1));
  const slope = dips.reduce((s, d) => {
    const step = d ? (d(value + 0.05) - d(Math.max(-lowest, value - 0.05))) / 0.1 : 0;
    return s + step * step;
  }, 0);
  const half = (studentT(level, Math.max(1, n - 1)) * scatterArcmin) / Math.sqrt(slope);
  const size = { value, low: value - half, high: value + half, level, n };
  return { cause: 'height of eye', unit: 'm', size, scatterArcmin, squares };
}

/** How much more dip so many metres more make, in minutes of arc; null where there is no dip. */
function dipOf({ row }: JudgedReading): ((moreM: number) => number) | null {
  const h = row.eyeHeightM;
  if (h === null) return null;
  if (row.horizon === 'short' && row.horizonDistanceM !== null) {
    const distance = row.horizonDistanceM;
    return (more) => dipShortKernel(h + more, distance) - dipShortKernel(h, distance);
  }
  if (row.horizon === 'natural' || row.horizon === null)
    return (more) => dipKernel(Math.max(0, h + more)) - dipKernel(h);
  return null;
}

/** Place of the least value between two ends: a grid, then thirds. */
function leastOf(f: (x: number) => number, low: number, high: number): number {
  const steps = 200;
  const grid = Array.from({ length: steps + 1 }, (_, i) => low + ((high - low) * i) / steps);
  const best = grid.reduce((a, b) => (f(b) < f(a) ? b : a));
  let [a, b] = [
    Math.max(low, best - (high - low) / steps),
    Math.min(high, best + (high - low) / steps),
  ];
  while (b - a > 1e-6) {
    const [m1, m2] = [a + (b - a) / 3, b - (b - a) / 3];
    if (f(m1) < f(m2)) b = m2;
    else a = m1;
  }
  return (a + b) / 2;
}
