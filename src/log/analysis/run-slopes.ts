import { linearRegression } from 'simple-statistics';
import type { Estimate } from '../statistics/intervals.js';
import { lineFit } from '../statistics/line-fit.js';
import type { JudgedReading } from './judged.js';

/** A run of one body: how fast it was observed to rise or fall, and how fast it did. */
export interface RunSlope {
  readonly body: string;
  readonly limb: string;
  readonly fromMs: number;
  readonly toMs: number;
  readonly n: number;
  /** Minutes of arc per minute of time, rising positive. */
  readonly observed: number;
  readonly computed: number;
  /** Observed less computed; it should hold zero. */
  readonly difference: Estimate;
}

/** A pause longer than this ends a run. */
const PAUSE_MS = 20 * 60_000;

/**
 * Runs of three readings or more of one body and limb without a long pause. The computed altitude is not quite
 * straight in time, so the difference is taken as the slope of the residuals: its interval is free of the bend.
 */
export function runSlopes(readings: readonly JudgedReading[], level = 0.95): RunSlope[] {
  return runsOf(readings).flatMap((run) => {
    const first = run[0] as JudgedReading;
    const minutes = run.map((r) => (r.row.utcMs - first.row.utcMs) / 60_000);
    const fit = lineFit(
      minutes,
      run.map((r) => r.residualArcmin),
      level,
    );
    if (!fit) return [];
    const computed = linearRegression(
      run.map((r, i) => [minutes[i] as number, (r.row.hoDeg ?? NaN) * 60 - r.residualArcmin]),
    ).m;
    return [
      {
        body: first.row.body,
        limb: first.row.limb,
        fromMs: first.row.utcMs,
        toMs: (run.at(-1) as JudgedReading).row.utcMs,
        n: run.length,
        observed: computed + fit.slope.value,
        computed,
        difference: fit.slope,
      },
    ];
  });
}

function runsOf(readings: readonly JudgedReading[]): JudgedReading[][] {
  const runs: JudgedReading[][] = [];
  for (const reading of readings) {
    const run = runs.at(-1);
    const last = run?.at(-1)?.row;
    const { row } = reading;
    const same =
      last &&
      last.body === row.body &&
      last.limb === row.limb &&
      last.observer === row.observer &&
      row.utcMs - last.utcMs <= PAUSE_MS;
    if (same) run?.push(reading);
    else runs.push([reading]);
  }
  return runs;
}
