import type { Estimate, PassageQuality } from '../../log/index.js';
import { flag, list, number, oneOf, optional, record, text, within } from '../check.js';

/** A mean with its interval, minutes of arc; ends absent where there are too few values. */
export interface Level {
  readonly name: string;
  readonly count: number;
  readonly mean: number;
  readonly low?: number;
  readonly high?: number;
}

/** Data of the passage report: its sections as written, and what its plots show. */
export interface PassageData {
  readonly format: 1;
  readonly title: string;
  readonly sections: readonly {
    readonly title: string;
    readonly sentences: readonly string[];
    readonly table?:
      | { readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] }
      | undefined;
  }[];
  readonly factors: readonly {
    readonly factor: string;
    readonly levels: readonly Level[];
    /** Only the levels with most readings are here. */
    readonly isPart?: boolean;
  }[];
  readonly control?: {
    readonly centre: number;
    readonly low: number;
    readonly high: number;
    readonly points: readonly {
      readonly timeMs: number;
      readonly label: string;
      readonly mean: number;
      readonly signals: readonly string[];
    }[];
  };
}

const isFinite = Number.isFinite;
const MOST_LEVELS = 60;
/** A plot of more levels than this keeps those with most readings. */
const PLOTTED_LEVELS = 14;

function levelOf(name: string, count: number, { value, low, high }: Estimate): Level[] {
  if (!isFinite(value)) return [];
  const ends = isFinite(low) && isFinite(high) ? { low, high } : {};
  return [{ name, count, mean: value, ...ends }];
}

/** How many levels have more readings than the i-th. */
const rank = (levels: readonly Level[], i: number): number =>
  levels.filter((l, k) => {
    const count = levels[i]?.count ?? 0;
    return l.count > count || (l.count === count && k < i);
  }).length;

export function passageData({ report, figures }: PassageQuality): PassageData {
  const { controlChart: chart, sessions, factors } = figures;
  return {
    format: 1,
    title: 'Passage report',
    sections: report.map(({ title, sentences, table }) => ({
      title,
      sentences,
      ...(table ? { table } : {}),
    })),
    factors: factors.map(({ factor, levels }) => {
      const all = levels.flatMap(({ name, n, pooled }) => levelOf(name, n, pooled));
      return all.length <= PLOTTED_LEVELS
        ? { factor, levels: all }
        : { factor, levels: all.filter((_, i) => rank(all, i) < PLOTTED_LEVELS), isPart: true };
    }),
    ...(chart
      ? {
          control: {
            centre: chart.centre,
            low: chart.low,
            high: chart.high,
            points: chart.points.flatMap(({ value, signals }, i) => {
              const session = sessions[i];
              if (!session || !isFinite(value)) return [];
              const who = [session.round, session.observer, session.instrument].filter(Boolean);
              return [{ timeMs: session.utcMs, label: who.join(', '), mean: value, signals }];
            }),
          },
        }
      : {}),
  };
}

const table = record({ heads: list(text, 30), rows: list(list(text, 30), 2000) });
const section = record({
  title: text,
  sentences: list(text, 500),
  table: optional(table),
});
const level = record({
  name: text,
  count: within(0, 1e7),
  mean: number,
  low: optional(number),
  high: optional(number),
});
const point = record({
  timeMs: within(-8.64e15, 8.64e15),
  label: text,
  mean: number,
  signals: list(text, 20),
});
const fields = record({
  format: oneOf(1),
  title: text,
  sections: list(section, 60),
  factors: list(
    record({ factor: text, levels: list(level, MOST_LEVELS), isPart: optional(flag) }),
    20,
  ),
  control: optional(
    record({ centre: number, low: number, high: number, points: list(point, 2000) }),
  ),
});

/** Passage data out of a notebook file. @throws ViewDataError naming the field that is wrong */
export const checkPassageData = (value: unknown): PassageData =>
  fields(value, '') as unknown as PassageData;
