import { altitudeKernel } from '../line/altitude-kernel.js';
import { radians } from '../line/trig.js';
import { type AltitudeRow, residuals } from './altitude-model.js';
import { contourRings } from './contour.js';
import { probability } from './distributions.js';
import { at, dot, eigen2, type Matrix, times, zeros } from './matrix.js';
import { logSumExp, quadratic, type Scale } from './scales.js';
import type { PriorKernel } from './solve.js';
import { move, offset } from './sphere.js';

/** What is known of the position, as a density over places near `latDeg`, `lonDeg`. */
export interface Density {
  readonly latDeg: number;
  readonly lonDeg: number;
  /** Log density (not normalised) at minutes of arc north and east (along a great circle) of the centre. */
  log(northArcmin: number, eastArcmin: number): number;
  /** The same at a place. */
  logAt(latDeg: number, lonDeg: number): number;
}

/** The exact density: circles stay circles, no straight lines. Weights as at the solution. */
export function density(
  rows: readonly AltitudeRow[],
  centre: { latDeg: number; lonDeg: number },
  scaleList: readonly Scale[],
  prior: PriorKernel | undefined,
): Density {
  const { latDeg, lonDeg } = centre;
  const only = scaleList.length === 1 ? scaleList[0] : undefined;
  const ofResiduals = (r: readonly number[]) =>
    only
      ? logLikelihood(only, quadratic(only.weight, r))
      : logSumExp(scaleList.map((s) => s.logFront - 0.5 * quadratic(s.weight, r)));
  const ofPrior = (lat: number, lon: number) => {
    if (!prior) return 0;
    const o = offset(lat, lon, prior.latDeg, prior.lonDeg);
    const d = [o.northArcmin, o.eastArcmin];
    return -0.5 * dot(d, times(prior.information, d));
  };
  const logAt = (lat: number, lon: number) =>
    ofResiduals(residuals(rows, lat, lon)) + ofPrior(lat, lon);
  const still = !prior && rows.every((r) => r.legs.length === 0);
  const quick = still ? planeResiduals(rows, centre) : undefined;
  return {
    latDeg,
    lonDeg,
    logAt,
    log(north, east) {
      if (quick) return ofResiduals(quick(north, east));
      const p = move(latDeg, lonDeg, north, east);
      return logAt(p.latDeg, p.lonDeg);
    },
  };
}

function logLikelihood({ freedom }: Scale, squares: number): number {
  // A perfect fit would make the closed form infinite at one point; no altitudes agree to a millionth of sigma.
  return freedom === undefined
    ? -0.5 * squares
    : -0.5 * freedom * Math.log(Math.max(squares, 1e-12));
}

const ARCMIN_PER_RADIAN = 10800 / Math.PI;

/** Residuals (minutes of arc) by minutes north and east of a centre, for a vessel at rest: a dot product a body. */
function planeResiduals(rows: readonly AltitudeRow[], centre: { latDeg: number; lonDeg: number }) {
  const parts = rows.map((row) => {
    const o = altitudeKernel(centre.latDeg, centre.lonDeg, row.ghaDeg, row.decDeg);
    const [alt, az] = [radians(o.altDeg), radians(o.azDeg)];
    return {
      up: Math.sin(alt),
      north: Math.cos(alt) * Math.cos(az),
      east: Math.cos(alt) * Math.sin(az),
      observed: radians(row.observedDeg),
    };
  });
  const out = new Array<number>(rows.length).fill(0);
  return (north: number, east: number): readonly number[] => {
    const distance = Math.sqrt(north * north + east * east);
    const arc = distance / ARCMIN_PER_RADIAN;
    const cos = Math.cos(arc);
    const along = distance === 0 ? 0 : Math.sin(arc) / distance;
    for (let i = 0; i < parts.length; i++) {
      const p = parts[i] as (typeof parts)[number];
      const sine = cos * p.up + along * (north * p.north + east * p.east);
      out[i] = (p.observed - Math.asin(Math.max(-1, Math.min(1, sine)))) * ARCMIN_PER_RADIAN;
    }
    return out;
  };
}

/** Density on a grid laid along the axes of a first covariance, nodes wider apart outwards. */
export interface DensityGrid {
  readonly density: Density;
  readonly angleRad: number;
  /** Node coordinates along the long and the short axis, minutes of arc. */
  readonly along: readonly number[];
  readonly across: readonly number[];
  /** Log density less its highest value; node (i along, j across) at index j × along.length + i. */
  readonly logs: Float64Array;
  /** Probability of each node's cell, in the same order. */
  readonly mass: Float64Array;
  readonly peak: number;
}

const NODES = 101;
const COARSE = 31;
const FARTHEST_ARCMIN = 5000;

/**
 * Lays the grid so that it holds all but a trace of the probability.
 * @param covariance first guess of the spread, square minutes of arc, rows north and east
 * @param reach how far out, in standard deviations of that guess, the tails matter
 */
export function densityGrid(d: Density, covariance: Matrix, reach: number): DensityGrid {
  const { major, minor, angleRad } = eigen2(covariance);
  const spread = [Math.sqrt(major), Math.sqrt(Math.max(minor, major * 1e-8))] as [number, number];
  let box: Box = [-reach * spread[0], reach * spread[0], -reach * spread[1], reach * spread[1]];
  for (let tries = 0; tries < 14; tries++) {
    const trial = fill(
      d,
      angleRad,
      nodes(box[0], box[1], spread[0], COARSE),
      nodes(box[2], box[3], spread[1], COARSE),
    );
    const fitted = refit(trial, box);
    const widened = fitted.some((v, i) => Math.abs(v) > Math.abs(box[i] as number));
    box = fitted;
    if (!widened && tries > 0) break;
  }
  return fill(
    d,
    angleRad,
    nodes(box[0], box[1], spread[0], NODES),
    nodes(box[2], box[3], spread[1], NODES),
  );
}

type Box = [number, number, number, number];

/** Nodes between two bounds, evenly spaced within about ±2 spreads of 0, then ever wider (a hyperbolic sine). */
function nodes(low: number, high: number, spread: number, count: number): number[] {
  const s = 2 * spread;
  const [a, b] = [Math.asinh(low / s), Math.asinh(high / s)];
  return Array.from({ length: count }, (_, k) => s * Math.sinh(a + ((b - a) * k) / (count - 1)));
}

function fill(d: Density, angleRad: number, along: number[], across: number[]): DensityGrid {
  const [cos, sin] = [Math.cos(angleRad), Math.sin(angleRad)];
  const columns = along.length;
  const logs = new Float64Array(columns * across.length);
  let peak = -Infinity;
  for (let k = 0; k < logs.length; k++) {
    const [u, v] = [along[k % columns] as number, across[Math.floor(k / columns)] as number];
    const log = d.log(u * cos - v * sin, u * sin + v * cos);
    logs[k] = log;
    if (log > peak) peak = log;
  }
  const [wu, wv] = [widths(along), widths(across)];
  const mass = new Float64Array(logs.length);
  let total = 0;
  for (let k = 0; k < logs.length; k++) {
    const log = (logs[k] as number) - peak;
    logs[k] = log;
    mass[k] = Math.exp(log) * (wu[k % columns] as number) * (wv[Math.floor(k / columns)] as number);
    total += mass[k] as number;
  }
  for (let k = 0; k < mass.length; k++) mass[k] = (mass[k] as number) / total;
  return { density: d, angleRad, along, across, logs, mass, peak };
}

const widths = (x: readonly number[]): number[] =>
  x.map((v, i) => ((x[i + 1] ?? v) - (x[i - 1] ?? v)) / 2);

/** Shrinks a side to where a millionth of the probability lies beyond, widens one that still carries some. */
function refit({ along, across, mass }: DensityGrid, box: Box): Box {
  const byAlong = new Array<number>(along.length).fill(0);
  const byAcross = new Array<number>(across.length).fill(0);
  mass.forEach((m, k) => {
    const [i, j] = [k % along.length, Math.floor(k / along.length)];
    byAlong[i] = (byAlong[i] as number) + m;
    byAcross[j] = (byAcross[j] as number) + m;
  });
  const [l, r] = side(along, byAlong, box[0], box[1]);
  const [b, t] = side(across, byAcross, box[2], box[3]);
  return [l, r, b, t];
}

function side(
  x: readonly number[],
  m: readonly number[],
  low: number,
  high: number,
): [number, number] {
  const TRACE = 1e-5;
  const width = high - low;
  const last = m.length - 1;
  const first = m.findIndex((v) => v > TRACE);
  const final = m.findLastIndex((v) => v > TRACE);
  const clamp = (v: number) => Math.max(-FARTHEST_ARCMIN, Math.min(FARTHEST_ARCMIN, v));
  const newLow = first <= 0 ? clamp(low - width / 3) : (x[Math.max(0, first - 2)] as number);
  const newHigh =
    final >= last ? clamp(high + width / 3) : (x[Math.min(last, final + 2)] as number);
  return [newLow, newHigh];
}

/** The smallest region that holds `level` of the probability, from the grid. */
export interface GridRegion {
  /** Log density at the edge, on the scale of `density.log`. */
  readonly edgeLog: number;
  /** Outline in minutes of arc north and east of the centre. */
  readonly outline: () => readonly (readonly [north: number, east: number])[];
  readonly moments: () => { meanArcmin: [north: number, east: number]; covariance: Matrix };
}

export function gridRegion(grid: DensityGrid, level: number): GridRegion {
  const edge = edgeOf(grid, probability(level));
  const outline = () => {
    const rings = contourRings(
      (i, j) => grid.logs[j * grid.along.length + i] as number,
      grid.along.length,
      grid.across.length,
      edge,
    );
    const [cos, sin] = [Math.cos(grid.angleRad), Math.sin(grid.angleRad)];
    return (rings[0] ?? []).map(([col, row]): readonly [number, number] => {
      const [u, v] = [interpolate(grid.along, col), interpolate(grid.across, row)];
      return [u * cos - v * sin, u * sin + v * cos];
    });
  };
  return { edgeLog: edge + grid.peak, outline, moments: () => moments(grid) };
}

/** The log density above which `level` of the probability lies, by bisection to 0.0001. */
function edgeOf(grid: DensityGrid, level: number): number {
  const { logs, mass } = grid;
  let [low, high] = [-80, 0];
  for (let i = 0; i < 20; i++) {
    const middle = (low + high) / 2;
    let held = 0;
    for (let k = 0; k < logs.length; k++)
      if ((logs[k] as number) >= middle) held += mass[k] as number;
    if (held >= level) low = middle;
    else high = middle;
  }
  return low;
}

function interpolate(x: readonly number[], position: number): number {
  const i = Math.min(Math.max(Math.floor(position), 0), x.length - 2);
  const a = x[i] as number;
  return a + ((x[i + 1] as number) - a) * (position - i);
}

function moments(grid: DensityGrid): { meanArcmin: [number, number]; covariance: Matrix } {
  const [cos, sin] = [Math.cos(grid.angleRad), Math.sin(grid.angleRad)];
  const mean: [number, number] = [0, 0];
  const second = zeros(2);
  grid.mass.forEach((m, k) => {
    const i = k % grid.along.length;
    const [u, v] = [grid.along[i] as number, grid.across[(k - i) / grid.along.length] as number];
    const p = [u * cos - v * sin, u * sin + v * cos] as const;
    for (const a of [0, 1] as const) {
      mean[a] += m * p[a];
      for (const b of [0, 1] as const) (second[a] as number[])[b]! += m * p[a] * p[b];
    }
  });
  const covariance = second.map((_, a) =>
    [0, 1].map((b) => at(second, a, b) - (mean[a] as number) * (mean[b] as number)),
  );
  return { meanArcmin: mean, covariance };
}
