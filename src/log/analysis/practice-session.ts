import { lineFit, type LineFit } from '../statistics/line-fit.js';
import { meanEstimate, scatterEstimate, type Estimate } from '../statistics/intervals.js';
import {
  durbinWatson,
  normalityCheck,
  runsCheck,
  type CheckResult,
} from '../statistics/run-checks.js';
import type { SightLog } from '../sight-log.js';
import { explanations, type Explanation } from './explanations.js';
import { judgeReadings, type JudgedReading } from './judged.js';
import { isBelievable, nameSlips, type NamedSlip } from './name-slips.js';
import { practiceParts, type PracticePart } from './practice-sentences.js';
import { runSlopes, type RunSlope } from './run-slopes.js';

/** A reading set aside, and the slips that would explain it, the most likely first. */
export interface Outlier extends JudgedReading {
  readonly slips: readonly NamedSlip[];
  /** Far from the rest, but not further from the usual than its own error budget lets a reading be. */
  readonly believable: boolean;
}

/** What a practice session says about its observer; angles in minutes of arc, + where the reading is too high. */
export interface PracticeFigures {
  readonly level: number;
  /** Every reading that is used in the log and has a residual, in order of time; outliers marked. */
  readonly readings: readonly JudgedReading[];
  /** Used readings without a known position or track to compare with. */
  readonly unreferenced: number;
  readonly outliers: readonly Outlier[];
  /** Mean residual with outliers set aside: the personal bias with whatever else is common to all. */
  readonly bias: Estimate;
  /** Standard deviation of one reading. */
  readonly scatter: Estimate;
  /** The same with the outliers left in. */
  readonly withOutliers: { readonly bias: Estimate; readonly scatter: Estimate };
  readonly runs: readonly RunSlope[];
  /** Residual against hours since the first reading; null with too few. */
  readonly trend: LineFit | null;
  readonly runsCheck: (CheckResult & { readonly runs: number }) | null;
  readonly normality: CheckResult | null;
  readonly durbinWatson: number;
  readonly explanations: readonly Explanation[];
}

/** The figures with their words. */
export class PracticeSession {
  /** What it comes to, part by part: readings, bias, scatter, run, trend, order and spread, explanation. */
  readonly parts: readonly PracticePart[];
  /** The same in whole sentences, one after another. */
  readonly sentences: readonly string[];
  constructor(readonly figures: PracticeFigures) {
    this.parts = Object.freeze(practiceParts(figures));
    this.sentences = Object.freeze(this.parts.flatMap((part) => part.sentences));
    Object.freeze(this);
  }
  /** The log with the readings that were set aside rejected, the likeliest slip of each as its reason. */
  setAside(log: SightLog): SightLog {
    return this.figures.outliers.reduce(
      (kept, { row, slips }) =>
        kept.reject(
          (r) => r.utcMs === row.utcMs && r.readingDeg === row.readingDeg,
          slips[0]?.slip ?? 'far from the rest, no slip known',
        ),
      log,
    );
  }
  /** The report in plain text, a sentence a line. */
  toText(): string {
    return this.sentences.join('\n');
  }
  /** The report in plain text. */
  toString(): string {
    return this.toText();
  }
  /** The figures as plain data. */
  toJSON(): unknown {
    const plain = ({ row, ...rest }: JudgedReading) => ({
      ...rest,
      line: row.line,
      utcMs: row.utcMs,
    });
    return {
      ...this.figures,
      readings: this.figures.readings.map(plain),
      outliers: this.figures.outliers.map((o) => ({ ...plain(o), slips: o.slips })),
      sentences: this.sentences,
    };
  }
}

/**
 * Judges a practice session: readings from a known position (or along a track). Readings far from the rest are set
 * aside by a stated rule, named as slips, and stay in the log.
 * @throws RangeError when fewer than three readings have something to be compared with
 */
export function practiceSession(
  log: SightLog,
  options: { readonly level?: number } = {},
): PracticeSession {
  const level = options.level ?? 0.95;
  const { readings, unreferenced } = judgeReadings(log);
  if (readings.length < 3)
    throw new RangeError(
      `${readings.length} readings have a residual: write 'known' in the column position with latitude and longitude, or give the track with log.withTrack(track)`,
    );
  const sound = readings.filter((r) => !r.outlier);
  const residuals = sound.map((r) => r.residualArcmin);
  const bias = meanEstimate(residuals, level);
  const scatter = scatterEstimate(residuals, level);
  const begins = (sound[0] as JudgedReading).row.utcMs;
  const hours = sound.map((r) => (r.row.utcMs - begins) / 3_600_000);
  return new PracticeSession({
    level,
    readings,
    unreferenced,
    outliers: readings
      .filter((r) => r.outlier)
      .map((r) => withSlips(log, r, bias.value, scatter.value)),
    bias,
    scatter,
    withOutliers: allOf(readings, level),
    runs: runSlopes(sound, level),
    trend: lineFit(hours, residuals, level),
    runsCheck: runsCheck(residuals),
    normality: normalityCheck(residuals),
    durbinWatson: durbinWatson(residuals.map((r) => r - bias.value)),
    explanations: explanations(sound, level),
  });
}

/** An outlier with the slips that explain it. */
export const withSlips = (
  log: SightLog,
  reading: JudgedReading,
  biasArcmin: number,
  scatterArcmin: number,
): Outlier => ({
  ...reading,
  slips: nameSlips(log, reading.row, biasArcmin, scatterArcmin),
  believable: isBelievable(reading.row, biasArcmin),
});

function allOf(readings: readonly JudgedReading[], level: number) {
  const all = readings.map((r) => r.residualArcmin);
  return { bias: meanEstimate(all, level), scatter: scatterEstimate(all, level) };
}
