import type { ChartChanges, ChartFigures } from '../../../views/chart/chart-model.js';
import type { ViewState } from '../view.js';

const isNumber = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value);

const BOUNDS = {
  courseDeg: [0, 360],
  speedKn: [0, 60],
  sigmaArcmin: [0.01, 60],
  level: [0.1, 0.9999],
} as const;

/** Changes out of a state that came from anywhere: what is not understood is left out; `null` takes a change back. */
export function mergeChartChanges(now: ChartChanges, given: unknown): ChartChanges {
  if (typeof given !== 'object' || given === null) return now;
  const state = given as Record<string, unknown>;
  const merged: Record<string, unknown> = { ...now };
  for (const [name, [least, most]] of Object.entries(BOUNDS)) {
    const value = state[name];
    if (isNumber(value) && value >= least && value <= most) merged[name] = value;
  }
  for (const name of ['commonBias', 'estimateSigma'])
    if (typeof state[name] === 'boolean') merged[name] = state[name];
  if (Array.isArray(state['off']))
    merged['off'] = state['off'].filter((key) => typeof key === 'string').slice(0, 500);
  const dr = state['dr'] as Record<string, unknown> | null | undefined;
  if (dr && isNumber(dr['latDeg']) && isNumber(dr['lonDeg']) && Math.abs(dr['latDeg']) <= 90)
    merged['dr'] = { latDeg: dr['latDeg'], lonDeg: dr['lonDeg'] };
  for (const name of [...Object.keys(BOUNDS), 'commonBias', 'estimateSigma', 'off', 'dr'])
    if (state[name] === null) delete merged[name];
  return merged as ChartChanges;
}

/** What was changed and the fix that came of it, as plain data. */
export function chartState(changes: ChartChanges, figures: ChartFigures): ViewState {
  const { fix } = figures;
  if (!fix) return { ...changes, problem: figures.problem ?? '' };
  const region = fix.region();
  return {
    ...changes,
    fix: { latDeg: fix.position.latDeg, lonDeg: fix.position.lonDeg },
    region: {
      level: region.level,
      semiMajorNm: region.semiMajor.nauticalMiles,
      semiMinorNm: region.semiMinor.nauticalMiles,
      axisDeg: region.axis.degrees,
    },
    residualsArcmin: Object.fromEntries(
      figures.keys.map((key, i) => [key, fix.residuals[i]?.residual.arcminutes ?? null]),
    ),
  };
}
