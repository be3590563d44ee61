import { mean } from 'simple-statistics';

/** One point of a control chart. */
export interface ControlPoint {
  readonly value: number;
  /** What is out of control here, in words; empty when nothing is. */
  readonly signals: readonly string[];
}

/** A chart of single values: centre, limits at three standard deviations, and what stands out. */
export interface ControlChart {
  readonly centre: number;
  readonly low: number;
  readonly high: number;
  /** Standard deviation from the mean moving range. */
  readonly sigma: number;
  readonly points: readonly ControlPoint[];
}

/** Mean range of two normal values in standard deviations. */
const D2 = 1.128;
const RUN = 9;
const TREND = 6;

/**
 * Individuals chart with limits from the mean moving range of neighbours.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (centre ± 3 MR/1.128). Signals: a point beyond the
 * limits, nine in a row on one side of the centre, six in a row rising or falling: L. S. Nelson, J. Quality
 * Technology 16 (1984) 237, tests 1 to 3.
 * @param values in order of time @param centre the level that should be, else the mean
 * @returns null with fewer than two values
 */
export function controlChart(values: readonly number[], centre?: number): ControlChart | null {
  if (values.length < 2) return null;
  const ranges = values.slice(1).map((v, i) => Math.abs(v - (values[i] as number)));
  const sigma = mean(ranges) / D2;
  const middle = centre ?? mean(values as number[]);
  const points = values.map((value, i) => ({
    value,
    signals: [
      ...(Math.abs(value - middle) > 3 * sigma ? ['beyond three standard deviations'] : []),
      ...(oneSided(values, i, middle) ? [`${RUN} in a row on one side`] : []),
      ...(trending(values, i) ? [`${TREND} in a row rising or falling`] : []),
    ],
  }));
  return { centre: middle, low: middle - 3 * sigma, high: middle + 3 * sigma, sigma, points };
}

/** Whether the last nine values up to `i` lie on one side. */
function oneSided(values: readonly number[], i: number, centre: number): boolean {
  const last = values.slice(Math.max(0, i - RUN + 1), i + 1);
  return last.length === RUN && (last.every((v) => v > centre) || last.every((v) => v < centre));
}

function trending(values: readonly number[], i: number): boolean {
  const last = values.slice(Math.max(0, i - TREND + 1), i + 1);
  if (last.length < TREND) return false;
  const steps = last.slice(1).map((v, j) => v - (last[j] as number));
  return steps.every((s) => s > 0) || steps.every((s) => s < 0);
}
