import { mixedModel, type MixedFit } from '../statistics/mixed-model.js';
import { sampleStandardDeviation } from 'simple-statistics';
import type { Estimate } from '../statistics/intervals.js';
import { chiSquareRange } from '../statistics/quantiles.js';
import { altitudeRate, type JudgedReading } from './judged.js';

/** One planted or real cause that the whole passage is fitted with, all of them at once. */
export interface PassageTerm {
  readonly kind: 'observer' | 'instrument' | 'index drift' | 'watch error' | 'watch rate';
  /** Of whom or what: `A`, `sextant 2`; empty for the watch. */
  readonly of: string;
  /**
   * Observer: how much too high he reads with the first sextant; instrument: how much more than the first it reads;
   * index drift: growth of what it reads too high, a day; watch: seconds fast on what was noted, and gaining a day.
   */
  readonly estimate: Estimate;
  readonly unit: '′' | '′ a day' | 's' | 's a day';
}

/** All causes estimated together: observers, instruments, drift, watch. */
export interface PassageModel {
  readonly terms: readonly PassageTerm[];
  /** Terms that the log cannot tell from the others, and so were left out. */
  readonly leftOut: readonly string[];
  /** What the first sextant is that the others are compared with. */
  readonly firstInstrument: string | null;
  /** Scatter from session to session (horizon, dip), and of one reading, one standard deviation. */
  readonly sessionScatterArcmin: number;
  readonly readingScatterArcmin: number;
  /** Scatter of one reading of each observer, everything else allowed for. */
  readonly observerScatter: readonly { readonly of: string; readonly estimate: Estimate }[];
  readonly fit: MixedFit;
}

interface Candidate {
  readonly key: string;
  readonly kind: PassageTerm['kind'];
  readonly of: string;
  readonly unit: PassageTerm['unit'];
  readonly column: readonly number[];
}

const DAY_MS = 86_400_000;
/** Readings further apart than this, or by another observer or sextant, are another session. */
const SESSION_GAP_MS = 45 * 60_000;

/** Session of each reading: readings in order of time. */
export function sessionsOf(readings: readonly JudgedReading[]): string[] {
  let session = 0;
  return readings.map(({ row }, i) => {
    const last = readings[i - 1]?.row;
    if (
      last &&
      (row.utcMs - last.utcMs > SESSION_GAP_MS ||
        row.observer !== last.observer ||
        row.instrument !== last.instrument)
    )
      session += 1;
    return String(session);
  });
}

/**
 * Fits all residuals of a passage at once: bias of each observer, difference of each sextant from the first, drift of
 * each sextant's index, error and rate of the watch (told by bodies rising and setting), with an error of its own for
 * each session. Observers' readings are weighted by their scatter. Terms that depend on the others are left out and named.
 */
export function passageModel(readings: readonly JudgedReading[], level = 0.95): PassageModel {
  const y = readings.map((r) => r.residualArcmin);
  const { kept, leftOut } = independent(candidates(readings));
  const fixed = Object.fromEntries(kept.map((c) => [c.key, c.column]));
  const random = { session: sessionsOf(readings) };
  const plain = mixedModel({ y, fixed, random }, level);
  const weights = observerWeights(readings, plain.residuals);
  const fit = mixedModel({ y, fixed, random, weights }, level);
  return {
    terms: kept.map(({ key, kind, of, unit }) => ({
      kind,
      of,
      unit,
      estimate: fit.fixed[key] as Estimate,
    })),
    leftOut,
    firstInstrument: distinct(readings.map((r) => r.row.instrument ?? 'sextant'))[0] ?? null,
    sessionScatterArcmin: fit.sigmaBetween['session'] ?? NaN,
    readingScatterArcmin: fit.sigma,
    observerScatter: observerScatter(readings, fit, weights, level),
    fit,
  };
}

const distinct = (values: readonly string[]): string[] => [...new Set(values)].sort();

function candidates(readings: readonly JudgedReading[]): Candidate[] {
  const begins = readings[0]?.row.utcMs ?? 0;
  const days = readings.map((r) => (r.row.utcMs - begins) / DAY_MS);
  const observer = readings.map((r) => r.row.observer ?? 'observer');
  const instrument = readings.map((r) => r.row.instrument ?? 'sextant');
  const late = readings.map((r) => -altitudeRate(r.row));
  const sextants = distinct(instrument);
  const only = (all: readonly string[], name: string, values: readonly number[]) =>
    values.map((v, i) => (all[i] === name ? v : 0));
  const ones = readings.map(() => 1);
  return [
    ...distinct(observer).map((of) => ({
      key: `observer ${of}`,
      kind: 'observer' as const,
      of,
      unit: '′' as const,
      column: only(observer, of, ones),
    })),
    ...sextants.slice(1).map((of) => ({
      key: `instrument ${of}`,
      kind: 'instrument' as const,
      of,
      unit: '′' as const,
      column: only(instrument, of, ones),
    })),
    ...sextants.map((of) => ({
      key: `drift ${of}`,
      kind: 'index drift' as const,
      of,
      unit: '′ a day' as const,
      column: only(instrument, of, days),
    })),
    { key: 'watch error', kind: 'watch error', of: '', unit: 's', column: late },
    {
      key: 'watch rate',
      kind: 'watch rate',
      of: '',
      unit: 's a day',
      column: late.map((v, i) => v * (days[i] as number)),
    },
  ];
}

/** Share of a column's square that must be its own for it to be told from those before. */
const LEAST_OWN = 1e-6;

/** Keeps each column that is no combination of those kept before it (Gram–Schmidt). */
function independent(all: readonly Candidate[]): { kept: Candidate[]; leftOut: string[] } {
  const basis: number[][] = [];
  const kept: Candidate[] = [];
  const leftOut: string[] = [];
  const dot = (a: readonly number[], b: readonly number[]) =>
    a.reduce((s, v, i) => s + v * (b[i] as number), 0);
  for (const candidate of all) {
    const before = dot(candidate.column, candidate.column);
    let rest = [...candidate.column];
    for (const b of basis) {
      const part = dot(rest, b);
      rest = rest.map((v, i) => v - part * (b[i] as number));
    }
    const after = dot(rest, rest);
    if (!(before > 0) || !(after > LEAST_OWN * before)) {
      leftOut.push(candidate.key);
      continue;
    }
    basis.push(rest.map((v) => v / Math.sqrt(after)));
    kept.push(candidate);
  }
  return { kept, leftOut };
}

/** Inverse squares of each observer's scatter, 1 on the mean. */
function observerWeights(
  readings: readonly JudgedReading[],
  residuals: readonly number[],
): number[] {
  const byObserver = new Map<string | null, number[]>();
  readings.forEach((r, i) => {
    const list = byObserver.get(r.row.observer) ?? [];
    list.push(residuals[i] as number);
    byObserver.set(r.row.observer, list);
  });
  const weight = (observer: string | null) => {
    const list = byObserver.get(observer) ?? [];
    return list.length < 5 ? 1 : 1 / Math.max(0.05, sampleStandardDeviation(list)) ** 2;
  };
  const raw = readings.map((r) => weight(r.row.observer));
  const middle = raw.reduce((s, w) => s + w, 0) / raw.length;
  return raw.map((w) => w / middle);
}

/**
 * Root mean square of each observer's residuals, made up for the freedom that terms and sessions take: that share is
 * the sum of weighted squares over what the variance of a reading says it should be. Interval by χ².
 */
function observerScatter(
  readings: readonly JudgedReading[],
  fit: MixedFit,
  weights: readonly number[],
  level: number,
): { of: string; estimate: Estimate }[] {
  const n = readings.length;
  const squares = fit.residuals.map((r) => r * r);
  const weighted = squares.reduce((s, v, i) => s + v * (weights[i] as number), 0);
  const free = weighted / (n * fit.sigma ** 2);
  return distinct(readings.map((r) => r.row.observer ?? 'observer')).map((of) => {
    const own = squares.filter((_, i) => (readings[i]?.row.observer ?? 'observer') === of);
    const dof = own.length * free;
    const value = Math.sqrt(own.reduce((s, v) => s + v, 0) / dof);
    const [low, high] = chiSquareRange(level, dof);
    return {
      of,
      estimate: {
        value,
        low: value * Math.sqrt(dof / high),
        high: value * Math.sqrt(dof / low),
        level,
        n: own.length,
      },
    };
  });
}
