import { altitudeRateKernel } from '../../core/line/altitude-kernel.js';
import { ghaRateArcminPerS } from '../../core/line/observation.js';
import { outlierLimit, robustScores } from '../statistics/outliers.js';
import type { LogRow, SightLog } from '../sight-log.js';

/** A reading with its residual and whether the statistics rest on it. */
export interface JudgedReading {
  readonly row: LogRow;
  /** Ho − Hc at the reference, minutes of arc. */
  readonly residualArcmin: number;
  /** Distance from the median in robust standard deviations. */
  readonly score: number;
  /** Beyond the limit for an outlier: set aside, and named. */
  readonly outlier: boolean;
}

/** Scatter that a round of identical readings would have: readings are to 0.1′, the horizon to some tenths. */
const LEAST_SIGMA_ARCMIN = 0.2;

/**
 * The readings used in the log that have a residual, in order of time, with outliers marked (modified z-score over
 * 3.5, more among few). Readings rejected in the log are left out; so are those without a reference.
 */
export function judgeReadings(log: SightLog): { readings: JudgedReading[]; unreferenced: number } {
  const rows = log
    .rows()
    .filter((r) => r.accepted)
    .sort((a, b) => a.utcMs - b.utcMs);
  const referenced = rows.filter((r) => r.residualArcmin !== null);
  const residuals = referenced.map((r) => r.residualArcmin as number);
  const scores = robustScores(residuals, LEAST_SIGMA_ARCMIN);
  const limit = outlierLimit(residuals.length);
  const readings = referenced.map((row, i) => {
    const score = scores[i] as number;
    const outlier = Math.abs(score) > limit;
    return { row, residualArcmin: residuals[i] as number, score, outlier };
  });
  return { readings, unreferenced: rows.length - referenced.length };
}

/** Change of the computed altitude, minutes of arc per second of time, rising positive. */
export function altitudeRate(row: LogRow): number {
  return altitudeRateKernel(row.latDeg ?? NaN, row.znDeg ?? NaN, ghaRateArcminPerS(row.body));
}
