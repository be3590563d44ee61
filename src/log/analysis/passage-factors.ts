import { meanEstimate, scatterEstimate, type Estimate } from '../statistics/intervals.js';
import { mixedModel } from '../statistics/mixed-model.js';
import { seaStateWord } from '../columns/read-quantity.js';
import type { LogRow } from '../sight-log.js';
import type { JudgedReading } from './judged.js';
import { sessionsOf } from './passage-model.js';

/** What residuals are sorted by. */
export type FactorName = 'observer' | 'instrument' | 'body' | 'azimuth' | 'altitude' | 'sea';

/** One level of a factor: one observer, one body, one band of altitude. */
export interface FactorLevel {
  readonly name: string;
  readonly n: number;
  /** Mean residual as it stands, Student's interval: too sure where few sessions stand behind many readings. */
  readonly bias: Estimate;
  /** The mean drawn towards the common one by as much as the data leave it in doubt, sessions allowed for. */
  readonly pooled: Estimate;
  readonly scatter: Estimate;
}

/** Residuals sorted by one factor, a level each. */
export interface Factor {
  readonly factor: FactorName;
  readonly levels: readonly FactorLevel[];
  /** Standard deviation between the levels beyond what sessions and readings explain, minutes of arc. */
  readonly betweenArcmin: number;
}

const COMPASS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];
const ALTITUDE_BAND_DEG = 15;

const LEVELS: Readonly<Record<FactorName, (row: LogRow) => string | null>> = {
  observer: (r) => r.observer,
  instrument: (r) => r.instrument,
  body: (r) => r.body,
  azimuth: (r) => (r.znDeg === null ? null : (COMPASS[Math.round(r.znDeg / 45) % 8] ?? null)),
  altitude: (r) => {
    if (r.hoDeg === null) return null;
    const low = Math.floor(r.hoDeg / ALTITUDE_BAND_DEG) * ALTITUDE_BAND_DEG;
    return `${low}° to ${low + ALTITUDE_BAND_DEG}°`;
  },
  sea: (r) => (r.seaState === null ? null : `${r.seaState}, ${seaStateWord(r.seaState)}`),
};

const ORDER: Readonly<Record<FactorName, (a: string, b: string) => number>> = {
  observer: (a, b) => a.localeCompare(b, 'en'),
  instrument: (a, b) => a.localeCompare(b, 'en'),
  body: (a, b) => a.localeCompare(b, 'en'),
  azimuth: (a, b) => COMPASS.indexOf(a) - COMPASS.indexOf(b),
  altitude: (a, b) => parseInt(a, 10) - parseInt(b, 10),
  sea: (a, b) => parseInt(a, 10) - parseInt(b, 10),
};

/** Bias and scatter by one factor; null where the log has not two levels of it. */
export function passageFactor(
  readings: readonly JudgedReading[],
  factor: FactorName,
  level = 0.95,
): Factor | null {
  const of = readings.map((r) => LEVELS[factor](r.row));
  const known = readings.filter((_, i) => of[i] !== null);
  const names = of.flatMap((n) => (n === null ? [] : [n]));
  const distinct = [...new Set(names)].sort(ORDER[factor]);
  if (distinct.length < 2) return null;
  const sessions = sessionsOf(readings).filter((_, i) => of[i] !== null);
  const fit = mixedModel(
    {
      y: known.map((r) => r.residualArcmin),
      fixed: { common: known.map(() => 1) },
      random: { [factor]: names, session: sessions },
    },
    level,
  );
  return {
    factor,
    betweenArcmin: fit.sigmaBetween[factor] ?? NaN,
    levels: distinct.map((name) => {
      const residuals = known.filter((_, i) => names[i] === name).map((r) => r.residualArcmin);
      return {
        name,
        n: residuals.length,
        bias: meanEstimate(residuals, level),
        pooled: { ...fit.sum('common', factor, name), n: residuals.length },
        scatter: scatterEstimate(residuals, level),
      };
    }),
  };
}
