import { mean } from 'simple-statistics';
import { controlChart, type ControlChart } from '../statistics/control-chart.js';
import { lineFit, type LineFit } from '../statistics/line-fit.js';
import type { JudgedReading } from './judged.js';
import { sessionsOf } from './passage-model.js';

/** One session: readings one after another by one observer with one sextant. */
export interface SessionMean {
  readonly utcMs: number;
  readonly round: string;
  readonly observer: string | null;
  readonly instrument: string | null;
  readonly n: number;
  readonly meanArcmin: number;
}

/** What was noted of a sextant's index error, and what the sights say of it. */
export interface IndexHistory {
  readonly instrument: string;
  /** Each value noted, from when on, + on the arc; null where none was noted. */
  readonly noted: readonly { readonly utcMs: number; readonly indexErrorArcmin: number | null }[];
  /** Mean residual of each session with that sextant, in order of time. */
  readonly sessions: readonly SessionMean[];
}

/** Errors of the watch as noted, and the rate they make; null with fewer than three. */
export interface WatchHistory {
  readonly noted: readonly { readonly utcMs: number; readonly errorS: number }[];
  readonly ratePerDay: LineFit | null;
}

export function sessionMeans(readings: readonly JudgedReading[]): SessionMean[] {
  const groups = new Map<string, JudgedReading[]>();
  sessionsOf(readings).forEach((s, i) => {
    groups.set(s, [...(groups.get(s) ?? []), readings[i] as JudgedReading]);
  });
  return [...groups.values()].map((group) => {
    const { row } = group[0] as JudgedReading;
    return {
      utcMs: row.utcMs,
      round: row.round,
      observer: row.observer,
      instrument: row.instrument,
      n: group.length,
      meanArcmin: mean(group.map((r) => r.residualArcmin)),
    };
  });
}

export function indexHistories(readings: readonly JudgedReading[]): IndexHistory[] {
  const sessions = sessionMeans(readings);
  const names = [...new Set(readings.map((r) => r.row.instrument ?? ''))].sort();
  return names.map((name) => {
    const own = readings.filter((r) => (r.row.instrument ?? '') === name);
    const changes = own.filter(
      (r, i) => i === 0 || r.row.indexErrorArcmin !== own[i - 1]?.row.indexErrorArcmin,
    );
    return {
      instrument: name,
      noted: changes.map(({ row }) => ({
        utcMs: row.utcMs,
        indexErrorArcmin: row.indexErrorArcmin,
      })),
      sessions: sessions.filter((s) => (s.instrument ?? '') === name),
    };
  });
}

const DAY_MS = 86_400_000;

export function watchHistory(readings: readonly JudgedReading[], level = 0.95): WatchHistory {
  const noted = readings.flatMap(({ row }) =>
    row.watchErrorS === null ? [] : [{ utcMs: row.utcMs, errorS: row.watchErrorS }],
  );
  const changes = noted.filter((v, i) => i === 0 || v.errorS !== noted[i - 1]?.errorS);
  return {
    noted: changes,
    ratePerDay: lineFit(
      changes.map((v) => (v.utcMs - (changes[0]?.utcMs ?? 0)) / DAY_MS),
      changes.map((v) => v.errorS),
      level,
    ),
  };
}

/** Control chart of the session means in order of time. */
export const sessionChart = (means: readonly SessionMean[]): ControlChart | null =>
  controlChart(means.map((m) => m.meanArcmin));
