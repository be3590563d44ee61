import { localRate } from './run-rate.js';
import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Instant } from '../units/instant.js';
import { Duration } from '../units/scalar.js';
import { Uncertainty, Working, type Step } from '../working/working.js';
import type { Position } from '../units/position.js';
import type { BodyName } from '../sky/body-names.js';
import type { Sight } from '../sextant/sight.js';
import { methodStep } from './method-step.js';

/** One altitude of a run. */
export interface TimedAltitude {
  readonly instant: Instant;
  /** As read, or corrected: all of one kind. */
  readonly altitude: Angle;
}

/** How a run of altitudes is to be judged. */
export interface RunOptions {
  /**
   * `fitted`: a straight line through the altitudes. A position and body instead give the slope beforehand from their
   * motion, which leaves only the height of the line to be found and is the better the shorter the run.
   */
  readonly slope?: 'fitted' | { readonly body: BodyName; readonly position: Position };
  /** Altitudes farther than this many robust standard deviations are marked; 3 unless told. */
  readonly limit?: number;
}

/** One altitude of a run against the line through the others. */
export interface RunResidual extends TimedAltitude {
  /** Above the line positive. */
  readonly residual: Angle;
  /** Left out of the mean. */
  readonly outlier: boolean;
}

/** A run brought down to one altitude at one time. */
export class SightRun {
  constructor(
    /** The altitude of the line at `instant`, the mean time of the altitudes kept. */
    readonly altitude: Angle,
    readonly instant: Instant,
    /** Change of altitude, minutes of arc a minute of time. */
    readonly slopeArcminPerMinute: number,
    /** Scatter of one altitude about the line, and of the mean, one standard deviation; null with nothing left over. */
    readonly scatter: Angle | null,
    readonly meanSigma: Angle | null,
    readonly residuals: readonly RunResidual[],
  ) {
    Object.freeze(this);
  }
  /** Readings too far from the line of the run, left out of the mean. */
  get outliers(): readonly RunResidual[] {
    return this.residuals.filter((r) => r.outlier);
  }
  /** Altitude with its standard deviation, and the time it is for. */
  toString(): string {
    const sigma = this.meanSigma ? ` ± ${this.meanSigma.arcminutes.toFixed(1)}′` : '';
    return `${this.altitude.toString()}${sigma} at ${this.instant.toString()}`;
  }
}

/** 1.4826 turns a median absolute deviation into a standard deviation (F. R. Hampel, JASA 69, 1974). */
const MAD_FACTOR = 1.4826;

/**
 * A run of altitudes of one body brought down to one: line fitted or of known slope, outliers marked by the median absolute
 * deviation and left out, mean with its standard error. Slopes in minutes of arc a minute of time, rising positive. Source: common practice, no source; the
 * estimators are those of statistics.
 * @param altitudes at least 2 (3 with a fitted slope), in any order; or a sight with several timed readings
 * @throws OutOfRangeError with too few
 */
export function sightRun(
  altitudes: readonly TimedAltitude[] | Sight,
  options: RunOptions = {},
): Working<SightRun> {
  const list = toList(altitudes);
  const slopeOption = options.slope ?? 'fitted';
  const fitted = slopeOption === 'fitted';
  const least = fitted ? 3 : 2;
  if (list.length < least)
    throw new OutOfRangeError(
      `a run ${fitted ? 'with a fitted slope ' : ''}needs at least ${least} altitudes with their times, and has ${list.length}`,
    );
  const origin = (list[0] as TimedAltitude).instant;
  const points = list.map((p) => ({
    x: p.instant.minus(origin).minutes,
    y: p.altitude.arcminutes,
  }));
  const known =
    slopeOption === 'fitted' ? undefined : localRate(slopeOption.body, slopeOption.position, list);
  // With a computed slope the body's own curve is taken off, so that a long run stays straight.
  const curve = (x: number) => known?.curveArcmin(x) ?? 0;
  const flat = points.map((p) => ({ x: p.x, y: p.y - curve(p.x) }));
  let kept = flat.map(() => true);
  for (let pass = 0; pass < 5; pass++) {
    const line = robustLine(flat, kept, fitted);
    const r = flat.map((p) => p.y - line(p.x));
    const next = mark(r, kept, options.limit ?? 3);
    if (next.every((k, i) => k === kept[i])) break;
    kept = next;
  }
  const used = flat.filter((_, i) => kept[i]);
  const { mean, slope, at } = leastSquares(used, fitted);
  const residuals = flat.map((p) => p.y - at(p.x));
  const dof = used.length - (fitted ? 2 : 1);
  const squares = residuals.reduce((s, r, i) => (kept[i] ? s + r * r : s), 0);
  const scatter = dof > 0 ? Math.sqrt(squares / dof) : null;
  const when = origin.plus(Duration.minutes(mean));
  const run = new SightRun(
    Angle.arcminutes(at(mean) + curve(mean)),
    when,
    known ? known.slopeAt(mean) : slope,
    scatter === null ? null : Angle.arcminutes(scatter),
    scatter === null ? null : Angle.arcminutes(scatter / Math.sqrt(used.length)),
    list.map((p, i) => ({
      ...p,
      residual: Angle.arcminutes(residuals[i] as number),
      outlier: !kept[i],
    })),
  );
  return new Working<SightRun>(
    `Run of ${list.length} altitudes`,
    [slopeStep(run, fitted), meanStep(run, used.length)],
    run.outliers.map(
      (o) =>
        `${o.altitude.toString()} at ${o.instant.toString()} lies ${formatCorrection(o.residual.arcminutes)} from the line and is left out.`,
    ),
    new Uncertainty(
      run.meanSigma ? [{ cause: 'observer', sigmaArcmin: run.meanSigma.arcminutes }] : [],
    ),
  );
}

function toList(given: readonly TimedAltitude[] | Sight): readonly TimedAltitude[] {
  if (!('readings' in given)) return given;
  return given.readings.map((r) => ({ instant: r.instant ?? given.instant, altitude: r.angle }));
}

interface Point {
  readonly x: number;
  readonly y: number;
}

function leastSquares(points: readonly Point[], fitted: boolean) {
  const mean = points.reduce((s, p) => s + p.x, 0) / points.length;
  const height = points.reduce((s, p) => s + p.y, 0) / points.length;
  const spread = points.reduce((s, p) => s + (p.x - mean) ** 2, 0);
  const slope =
    fitted && spread > 0
      ? points.reduce((s, p) => s + (p.x - mean) * (p.y - height), 0) / spread
      : 0;
  return { mean, slope, at: (x: number) => height + slope * (x - mean) };
}

/** Median of slopes of all pairs and median height (H. Theil 1950, P. K. Sen, JASA 63, 1968): no single altitude tilts it. */
function robustLine(points: readonly Point[], kept: readonly boolean[], fitted: boolean) {
  const used = points.filter((_, i) => kept[i]);
  const slopes = used.flatMap((p, i) =>
    used.slice(i + 1).flatMap((q) => (q.x === p.x ? [] : [(q.y - p.y) / (q.x - p.x)])),
  );
  const slope = fitted && slopes.length > 0 ? median(slopes) : 0;
  const height = median(used.map((p) => p.y - slope * p.x));
  return (x: number) => height + slope * x;
}

/** Fewer than five altitudes cannot say which of them is wrong; a spread below reading accuracy is no reason either. */
function mark(r: readonly number[], kept: readonly boolean[], limit: number): boolean[] {
  if (r.length < 5) return [...kept];
  const spread = Math.max(MAD_FACTOR * median(r.filter((_, i) => kept[i]).map(Math.abs)), 0.1);
  return r.map((v) => Math.abs(v) <= limit * spread);
}

function median(list: readonly number[]): number {
  const sorted = [...list].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1
    ? (sorted[middle] as number)
    : ((sorted[middle - 1] as number) + (sorted[middle] as number)) / 2;
}

function slopeStep(run: SightRun, fitted: boolean): Step {
  return methodStep({
    rule: 'slope',
    title: fitted ? 'Slope, fitted' : 'Slope, from the body’s motion',
    plain: fitted ? 'straight line by least squares' : 'computed altitudes at the position',
    figures: `${formatCorrection(run.slopeArcminPerMinute, 2)} a minute of time`,
    result: run.slopeArcminPerMinute,
  });
}

function meanStep(run: SightRun, used: number): Step<SightRun> {
  const scatter = run.scatter ? `, scatter ${run.scatter.arcminutes.toFixed(2)}′` : '';
  return methodStep({
    rule: 'mean',
    title: 'Altitude of the line at the mean time',
    plain: 'mean altitude at the mean time; its error is scatter / √n',
    latex: 's/\\sqrt n',
    figures: `${used} of ${run.residuals.length} altitudes${scatter}`,
    result: run,
  });
}
