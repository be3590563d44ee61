import {
  altitudeStagesKernel,
  stagesOf,
  type AltitudeInput,
  type AltitudeStages,
  type Sight,
} from '../../core/sextant/index.js';
import { formatAngle, formatCorrection } from '../../core/units/index.js';
import type { WorkingData, WorkingRow } from './working-data.js';

/** What each correction would be entered as by someone who forgot it. */
const FORGOTTEN: Readonly<Record<string, (input: AltitudeInput) => Partial<AltitudeInput>>> = {
  index: () => ({ indexErrorArcmin: 0 }),
  instrument: () => ({ instrumentArcmin: 0 }),
  halving: () => ({ horizon: 'bubble' }),
  dip: () => ({ horizon: 'bubble' }),
  refraction: () => ({ pressureHpa: 0 }),
  semidiameter: () => ({ sdArcmin: 0 }),
  parallax: () => ({ hpArcmin: 0 }),
  'earth-figure': () => ({ latDeg: NaN }),
  phase: () => ({ phaseArcmin: 0 }),
};

/** Steps that the reader may leave out to see what forgetting them does. */
export const canLeaveOut = (rule: string): boolean => Object.hasOwn(FORGOTTEN, rule);

const CORRECTIONS: Readonly<Record<string, (stages: AltitudeStages) => number>> = {
  index: (s) => s.indexArcmin,
  instrument: (s) => s.instrumentArcmin,
  dip: (s) => s.dipArcmin,
  refraction: (s) => s.refractionArcmin,
  semidiameter: (s) => s.sdArcmin,
  augmentation: (s) => s.augmentationArcmin,
  parallax: (s) => s.parallaxArcmin,
  'earth-figure': (s) => s.figureArcmin,
  phase: (s) => s.phaseArcmin,
};

const REACHED: Readonly<Record<string, (stages: AltitudeStages) => number>> = {
  halving: (s) => s.angleDeg,
  'back-sight': (s) => s.apparentDeg,
  apparent: (s) => s.apparentDeg,
  observed: (s) => s.observedDeg,
};

/** What leaving steps out does to the observed altitude, minutes of arc; + is too great. */
export interface Slip {
  readonly rules: readonly string[];
  readonly arcmin: number;
}

/** The working as it would stand with these steps forgotten, and the size of that slip. */
export function withoutSteps(
  data: WorkingData,
  sight: Sight,
  rules: readonly string[],
): { data: WorkingData; slip: Slip } | undefined {
  const forgotten = rules.filter((rule) => data.rows.some((row) => row.rule === rule));
  if (forgotten.length === 0) return undefined;
  const { input, stages } = stagesOf(sight);
  const changed = forgotten.reduce<AltitudeInput>(
    (now, rule) => ({ ...now, ...FORGOTTEN[rule]?.(now) }),
    input,
  );
  const wrong = altitudeStagesKernel(changed);
  const arcmin = (wrong.observedDeg - stages.observedDeg) * 60;
  return {
    data: { ...data, rows: rowsWithout(data.rows, wrong, new Set(forgotten), arcmin) },
    slip: { rules: forgotten, arcmin },
  };
}

function rowsWithout(
  rows: readonly WorkingRow[],
  stages: AltitudeStages,
  forgotten: ReadonlySet<string>,
  slipArcmin: number,
): WorkingRow[] {
  let runningDeg = 0;
  let isReached = false;
  return rows.map((row) => {
    if (row.rule === 'intercept') return interceptRow(row, slipArcmin);
    if (isReached) return row;
    if (row.rule === 'reading') runningDeg = row.runningDeg ?? 0;
    const reach = REACHED[row.rule];
    if (reach && !forgotten.has(row.rule)) runningDeg = reach(stages);
    isReached = row.rule === 'observed';
    const arcmin = CORRECTIONS[row.rule]?.(stages);
    if (arcmin === undefined || forgotten.has(row.rule))
      return { ...row, running: formatAngle(runningDeg), runningDeg };
    runningDeg += arcmin / 60;
    const correction = { correctionArcmin: arcmin, correction: formatCorrection(arcmin) };
    const isOther = Math.abs(arcmin - (row.correctionArcmin ?? 0)) >= 0.005;
    const figures = isOther ? { figures: formatCorrection(arcmin) } : {};
    return { ...row, ...correction, ...figures, running: formatAngle(runningDeg), runningDeg };
  });
}

/** The intercept takes the whole slip: a minute too great is a mile too far toward the body. */
function interceptRow(row: WorkingRow, slipArcmin: number): WorkingRow {
  const nm = row.interceptNm;
  if (nm === undefined) return row;
  const wrong = nm + slipArcmin;
  const running = `${Math.abs(wrong).toFixed(1)} nm ${wrong < 0 ? 'away' : 'toward'}`;
  return { ...row, interceptNm: wrong, running };
}
