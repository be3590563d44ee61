import { meanEstimate, scatterEstimate, type Estimate } from '../statistics/intervals.js';
import type { ControlChart } from '../statistics/control-chart.js';
import type { LogRow, SightLog } from '../sight-log.js';
import { applyCorrections } from './apply-corrections.js';
import { judgeReadings, type JudgedReading } from './judged.js';
import { passageFactor, type Factor, type FactorName } from './passage-factors.js';
import { passageFixes, type PassageFixes } from './passage-fixes.js';
import {
  indexHistories,
  sessionChart,
  sessionMeans,
  watchHistory,
  type IndexHistory,
  type SessionMean,
  type WatchHistory,
} from './passage-history.js';
import { passageModel, type PassageModel } from './passage-model.js';
import { passageReport, type ReportSection } from './passage-report.js';
import { withSlips, type Outlier } from './practice-session.js';

/** A sight by how far it moved its fix. */
export interface InfluentialSight {
  readonly round: string;
  readonly sight: string;
  readonly body: string;
  readonly observer: string | null;
  readonly utcMs: number;
  /** How far the fix of its round moves without it, nautical miles. */
  readonly movesNm: number;
  /** Mean residual of its readings, minutes of arc. */
  readonly residualArcmin: number | null;
}

/** Everything that is worked out of a passage. Residuals in minutes of arc, + where the reading is too high. */
export interface PassageFigures {
  readonly level: number;
  readonly readings: readonly JudgedReading[];
  readonly unreferenced: number;
  readonly outliers: readonly Outlier[];
  readonly bias: Estimate;
  readonly scatter: Estimate;
  readonly factors: readonly Factor[];
  readonly model: PassageModel;
  readonly indexHistory: readonly IndexHistory[];
  readonly watchHistory: WatchHistory;
  readonly sessions: readonly SessionMean[];
  readonly controlChart: ControlChart | null;
  readonly influential: readonly InfluentialSight[];
  /** Fixes of the log as it stands, and with the outliers left out. */
  readonly fixes: PassageFixes;
  readonly fixesWithoutOutliers: PassageFixes;
  /** Fixes with the errors taken off that the model found: from the same track, so they must look good. */
  readonly fixesCorrected: PassageFixes;
}

/** The quality of a passage: figures, and a report to read or print. */
export class PassageQuality {
  readonly report: readonly ReportSection[];
  constructor(
    readonly figures: PassageFigures,
    /** The log with the outliers rejected, each with the slip that explains it best. */
    readonly cleaned: SightLog,
    /** The cleaned log with the errors taken off that the model found. */
    readonly corrected: SightLog,
  ) {
    this.report = Object.freeze(passageReport(figures));
    Object.freeze(this);
  }
  /** The report in plain text: sections of sentences and tables. */
  toText(): string {
    return this.report
      .map((s) =>
        [s.title, '─'.repeat(s.title.length), ...s.sentences, ...tableLines(s)].join('\n'),
      )
      .join('\n\n');
  }
  /** The report in plain text. */
  toString(): string {
    return this.toText();
  }
  /** The figures as plain data. */
  toJSON(): unknown {
    return { report: this.report };
  }
}

function tableLines({ table }: ReportSection): string[] {
  if (!table) return [];
  const lines = [table.heads, ...table.rows];
  const widths = table.heads.map((_, i) => Math.max(...lines.map((r) => [...(r[i] ?? '')].length)));
  return lines.map((r) =>
    r
      .map((c, i) => c.padEnd(widths[i] ?? 0))
      .join('  ')
      .trimEnd(),
  );
}

const FACTORS: readonly FactorName[] = [
  'observer',
  'instrument',
  'body',
  'azimuth',
  'altitude',
  'sea',
];
const INFLUENTIAL = 8;

/**
 * Judges a whole passage: residuals against the track where the log has one (`log.withTrack(track)`), known positions,
 * or else the fixes themselves, which hide what is common to a round.
 * @throws RangeError with fewer than twelve readings to compare
 */
export function passageQuality(
  log: SightLog,
  options: { readonly level?: number } = {},
): PassageQuality {
  const level = options.level ?? 0.95;
  const { readings, unreferenced } = judgeReadings(log);
  if (readings.length < 12)
    throw new RangeError(
      `${readings.length} readings have a residual, and a passage is judged from twelve on: give the track with log.withTrack(track)`,
    );
  const sound = readings.filter((r) => !r.outlier);
  const residuals = sound.map((r) => r.residualArcmin);
  const bias = meanEstimate(residuals, level);
  const scatter = scatterEstimate(residuals, level);
  const outliers = readings
    .filter((r) => r.outlier)
    .map((r) => withSlips(log, r, bias.value, scatter.value));
  const cleaned = outliers.reduce(
    (l, o) =>
      l.reject((row) => sameReading(row, o.row), `outlier: ${o.slips[0]?.slip ?? 'no known slip'}`),
    log,
  );
  const sessions = sessionMeans(sound);
  const model = passageModel(sound, level);
  const corrected = applyCorrections(cleaned, model, sound[0]?.row.utcMs ?? 0);
  return new PassageQuality(
    {
      level,
      readings,
      unreferenced,
      outliers,
      bias,
      scatter,
      factors: FACTORS.flatMap((f) => passageFactor(sound, f, level) ?? []),
      model,
      indexHistory: indexHistories(sound),
      watchHistory: watchHistory(sound, level),
      sessions,
      controlChart: sessionChart(sessions),
      influential: influentialSights(log),
      fixes: passageFixes(log, level),
      fixesWithoutOutliers: passageFixes(cleaned, level),
      fixesCorrected: passageFixes(corrected, level),
    },
    cleaned,
    corrected,
  );
}

const sameReading = (a: LogRow, b: LogRow): boolean =>
  a.utcMs === b.utcMs && a.line === b.line && a.readingText === b.readingText;

function influentialSights(log: SightLog): InfluentialSight[] {
  const sights = new Map<string, LogRow[]>();
  for (const row of log.rows())
    if (row.accepted && row.influenceNm !== null) {
      const key = `${row.round}|${row.sight}`;
      sights.set(key, [...(sights.get(key) ?? []), row]);
    }
  return [...sights.values()]
    .map((rows) => {
      const first = rows[0] as LogRow;
      const known = rows.flatMap((r) => (r.residualArcmin === null ? [] : [r.residualArcmin]));
      return {
        round: first.round,
        sight: first.sight,
        body: first.body,
        observer: first.observer,
        utcMs: first.utcMs,
        movesNm: first.influenceNm as number,
        residualArcmin: known.length ? known.reduce((s, v) => s + v, 0) / known.length : null,
      };
    })
    .sort((a, b) => b.movesNm - a.movesNm)
    .slice(0, INFLUENTIAL);
}
