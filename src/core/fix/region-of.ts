import { Angle } from '../units/angle.js';
import { Position } from '../units/position.js';
import { Length } from '../units/scalar.js';
import { CircleOfEqualAltitude } from '../line/circle.js';
import { type AltitudeRow, type Leg, residuals, placeOfSight } from './altitude-model.js';
import { chi2Quantile, fQuantile, normalTwoSided } from './distributions.js';
import type { GridPoint } from './contour.js';
import { at, eigen2, inverse, type Matrix, multiply, times, transpose, zeros } from './matrix.js';
import { density, type DensityGrid, densityGrid, gridRegion } from './posterior.js';
import { axisAngle, ellipseRegion, placed, Region } from './region.js';
import { quadratic, scales, type Scale } from './scales.js';
import { type Mixture, scaleMixture, mixtureQuantile } from './scale-mixture.js';
import { type PriorKernel, type Solution, withoutBias } from './solve.js';

/** What a region is made from. */
export interface RegionBasis {
  readonly rows: readonly AltitudeRow[];
  readonly solution: Solution;
  readonly prior: PriorKernel | undefined;
  readonly commonBias: boolean;
  readonly estimateSigma: boolean;
  readonly degreesOfFreedom: number;
  /** Whether the exact density on a grid is wanted. */
  readonly grid: boolean;
}

/** Covariance of north and east, square minutes of arc; scaled by the scatter found where that is estimated. */
export function positionCovariance(b: RegionBasis): Matrix | null {
  const known = b.solution.unknowns ? inverse(b.solution.normal) : null;
  if (!known || !b.estimateSigma) return known;
  if (onlyScale(b)) {
    const factor = b.solution.chi2 / b.degreesOfFreedom;
    return known.map((row) => row.map((v) => v * factor));
  }
  return mixtureOf(b).covariance;
}

/** Lays the grid once for all levels. */
export function gridFor(b: RegionBasis): DensityGrid {
  const whole = b.estimateSigma && onlyScale(b);
  const first = (whole ? positionCovariance(b) : inverse(b.solution.normal)) ?? zeros(2);
  const floor = Math.max(at(first, 0, 0) + at(first, 1, 1), 1e-6) * 1e-6;
  const shape = first.map((row, i) => row.map((v, j) => v + (i === j ? floor : 0)));
  return densityGrid(density(b.rows, b.solution, scaleList(b), b.prior), shape, reach(b));
}

/** How many standard deviations out one thousandth of the probability still lies: far, with few altitudes to spare. */
function reach({ estimateSigma, degreesOfFreedom: v }: RegionBasis): number {
  if (!estimateSigma) return 5;
  return Math.max(5, Math.sqrt(v * (0.001 ** (-2 / v) - 1)));
}

/** The region of a level. @param grid lazily made grid, shared by the levels */
export function regionOf(b: RegionBasis, level: number, grid: () => DensityGrid): Region {
  if (!b.solution.unknowns) return bandRegion(b, level);
  if (b.grid) return regionOnGrid(grid(), level);
  const known = inverse(b.solution.normal) as Matrix;
  if (!b.estimateSigma)
    return ellipseRegion(
      b.solution,
      known,
      Math.sqrt(chi2Quantile(level, 2)),
      level,
      'ellipse, known sigma',
    );
  if (onlyScale(b)) {
    const k = Math.sqrt(2 * fQuantile(level, 2, b.degreesOfFreedom));
    return ellipseRegion(
      b.solution,
      positionCovariance(b) as Matrix,
      k,
      level,
      'ellipse, estimated sigma',
    );
  }
  const mixture = mixtureOf(b);
  const centre = placed(b.solution, ...mixture.mean);
  return ellipseRegion(
    centre,
    mixture.shape,
    mixtureQuantile(mixture, level),
    level,
    'ellipse, estimated sigma',
  );
}

const mixtures = new WeakMap<RegionBasis, Mixture>();

/** Made once for all levels of a fix. */
function mixtureOf(b: RegionBasis): Mixture {
  const found = mixtures.get(b) ?? scaleMixture(b.solution, scaleList(b), b.prior);
  mixtures.set(b, found);
  return found;
}

function scaleList(b: RegionBasis): Scale[] {
  const { estimateSigma, commonBias } = b;
  const wholeScales = estimateSigma && onlyScale(b);
  return scales(b.rows, b.solution.evaluation, { estimateSigma, commonBias, wholeScales });
}

/**
 * True where the whole covariance scales with the scatter, so that F holds exactly: the errors are the sights' own (a
 * common error that is an unknown anyway does not count) and no prior is in.
 */
export function onlyScale(b: RegionBasis): boolean {
  if (b.prior) return false;
  const own = zeros(b.rows.length);
  b.rows.forEach((r, i) => ((own[i] as number[])[i] = r.ownSigmaArcmin ** -2));
  const [u, v] = b.commonBias
    ? [withoutBias(own), withoutBias(b.solution.weight)]
    : [own, b.solution.weight];
  const size = Math.max(...own.flat());
  return u.every((row, i) => row.every((x, j) => Math.abs(x - at(v, i, j)) < 1e-9 * size));
}

function regionOnGrid(grid: DensityGrid, level: number): Region {
  const { edgeLog, outline, moments } = gridRegion(grid, level);
  const d = grid.density;
  const shape = () => {
    const { angleRad } = eigen2(moments().covariance);
    const [cos, sin] = [Math.cos(angleRad), Math.sin(angleRad)];
    const points = outline();
    const extent = (project: (p: GridPoint) => number) => {
      const x = points.map(project);
      return Length.nauticalMiles((Math.max(...x) - Math.min(...x)) / 2);
    };
    return {
      semiMajor: extent(([n, e]) => n * cos + e * sin),
      semiMinor: extent(([n, e]) => -n * sin + e * cos),
      axis: axisAngle(angleRad),
      polygon: [...points].reverse().map(([n, e]) => placed(d, n, e)),
    };
  };
  const holds = (lat: number, lon: number) => d.logAt(lat, lon) >= edgeLog;
  return new Region(level, 'exact density on a grid', true, shape, holds);
}

const BAND_HALF_LENGTH_ARCMIN = 60;

/** The strip along the circle of the weightiest line: all places within k standard deviations of the lines. */
function bandRegion(b: RegionBasis, level: number): Region {
  const { solution, rows } = b;
  const { major, angleRad } = eigen2(solution.normal);
  const k = normalTwoSided(level);
  const half = k / Math.sqrt(major);
  const first = rows.reduce((best, r) => (r.ownSigmaArcmin < best.ownSigmaArcmin ? r : best));
  const i = rows.indexOf(first);
  const toward = first.observedDeg - (solution.residuals[i] ?? 0) / 60;
  const edge = (side: 1 | -1): Position[] => {
    const circle = CircleOfEqualAltitude.of(
      Angle.degrees(first.ghaDeg),
      Angle.degrees(first.decDeg),
      Angle.degrees(Math.min(toward + (side * half) / 60, 90)),
    );
    const place = placeOfSight(solution.latDeg, solution.lonDeg, first.legs);
    return circle
      .arc(Position.degrees(place.latDeg, place.lonDeg), BAND_HALF_LENGTH_ARCMIN)
      .map((p) => carriedBack(p, first.legs));
  };
  const weight = b.commonBias ? withoutBias(solution.weight) : solution.weight;
  const shape = () => ({
    semiMajor: Length.nauticalMiles(BAND_HALF_LENGTH_ARCMIN),
    semiMinor: Length.nauticalMiles(half),
    axis: axisAngle(angleRad + Math.PI / 2),
    polygon: [...edge(1), ...edge(-1).reverse()],
  });
  return new Region(
    level,
    'band of a single line',
    false,
    shape,
    (lat, lon) => quadratic(weight, residuals(rows, lat, lon)) - solution.chi2 <= k * k,
  );
}

/** From the place of a sight to the fix: the legs backwards. */
export function carriedBack(p: Position, legs: readonly Leg[]): Position {
  const back = [...legs].reverse().map((l) => ({ ...l, distanceM: -l.distanceM }));
  const q = placeOfSight(p.latDeg, p.lonDeg, back);
  return Position.degrees(q.latDeg, q.lonDeg);
}

/** Leverage of each altitude: diagonal of X(XᵀWX)⁻¹XᵀW; they add up to the number of unknowns without a prior. */
export function leverages(s: Solution): number[] {
  if (!s.unknowns) return s.residuals.map(() => 1);
  const gain = multiply(s.unknowns, multiply(transpose(s.design), s.weight));
  return s.design.map((row, i) => row.reduce((sum, v, k) => sum + v * at(gain, k, i), 0));
}

/**
 * Each residual in units of its own standard deviation given the others (the w-test): (Wr)ᵢ/√(W − WX(XᵀWX)⁻¹XᵀW)ᵢᵢ; null
 * where the sight cannot be checked by the others. Source: W. Baarda, *A testing procedure for use in geodetic networks* (1968).
 */
export function standardised(s: Solution): (number | null)[] {
  if (!s.unknowns) return s.residuals.map(() => null);
  const wx = multiply(s.weight, s.design);
  const reduction = multiply(wx, multiply(s.unknowns, transpose(wx)));
  const wr = times(s.weight, s.residuals);
  return s.residuals.map((_, i) => {
    const spread = at(s.weight, i, i) - at(reduction, i, i);
    return spread > 1e-6 * at(s.weight, i, i) ? (wr[i] as number) / Math.sqrt(spread) : null;
  });
}
