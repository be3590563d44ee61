import { interceptText, PositionLine } from '../../core/line/index.js';
import { LunarTime } from '../../core/methods/index.js';
import { Angle, formatAngle, formatCorrection, Length } from '../../core/units/index.js';
import type { WorkingInputs } from './working-inputs.js';
import type { Origin, Step, StepInput, Working } from '../../core/working/index.js';

export interface WorkingInputRow {
  readonly name: string;
  readonly symbol?: string;
  readonly text: string;
  readonly origin: Origin;
}

/** One rung as shown. Texts are as a navigator writes them; numbers carry their unit in the name. */
export interface WorkingRow {
  readonly rule: string;
  readonly title: string;
  readonly kind: Step['kind'];
  readonly latex: string;
  readonly plain: string;
  readonly figures: string;
  readonly inputs: readonly WorkingInputRow[];
  readonly correctionArcmin?: number;
  readonly correction?: string;
  readonly running: string;
  /** Whether a rule is drawn above: a value reached, not one on the way. */
  readonly isSum: boolean;
  /** The running value when it is an angle, unrounded. */
  readonly runningDeg?: number;
  /** The running value when it is an intercept: nautical miles, toward positive. */
  readonly interceptNm?: number;
  readonly sigmaArcmin: number;
  /** This step's part of the whole variance, 0 to 1. */
  readonly varianceShare: number;
  readonly source: string;
  readonly caution?: string;
}

/** What the working view needs to show itself without recomputing. */
export interface WorkingData {
  readonly format: 1;
  readonly title: string;
  readonly rows: readonly WorkingRow[];
  readonly value: string;
  readonly sigmaArcmin: number;
  /** Where the uncertainty is one of distance: a minute of arc is a mile. */
  readonly sigmaUnit?: ' nm' | '°';
  readonly assumed: readonly string[];
  readonly flags: readonly string[];
  readonly cautions: readonly string[];
  /** From what the working is worked out again; absent where it did not come from a sight. */
  readonly inputs?: WorkingInputs;
  /** Ties the shown view to a value in the kernel. */
  readonly viewId?: string;
}

/** A value as a navigator writes it; an object of named values becomes `name value, name value`. */
export function valueText(value: unknown): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number') return String(Number(value.toFixed(6))).replace('-', '−');
  if (typeof value !== 'object') return String(value);
  if (value.toString !== Object.prototype.toString && !Array.isArray(value)) return String(value);
  return Object.entries(value)
    .map(([name, v]) => `${name} ${valueText(v)}`)
    .join(', ');
}

const inputRow = ({ name, symbol, text, origin }: StepInput): WorkingInputRow => ({
  name,
  ...(symbol === undefined ? {} : { symbol }),
  text,
  origin,
});

function runningOf(result: unknown): Pick<WorkingRow, 'running' | 'runningDeg' | 'interceptNm'> {
  const intercept = result instanceof PositionLine ? result.intercept : result;
  if (intercept instanceof Length)
    return { running: interceptText(intercept), interceptNm: intercept.nauticalMiles };
  if (!(result instanceof Angle)) return { running: valueText(result) };
  return { running: formatAngle(result.degrees), runningDeg: result.degrees };
}

/** A correction by itself is its own result, and reads as a correction; what a step writes out stands as it wrote it. */
function runningText(step: Step): ReturnType<typeof runningOf> {
  if (step.written !== undefined) return { ...runningOf(step.result), running: step.written };
  const { correction, result } = step;
  const isAlone = correction && result instanceof Angle && result.degrees === correction.degrees;
  return isAlone
    ? { running: formatCorrection(result.arcminutes), runningDeg: result.degrees }
    : runningOf(result);
}

function rowOf(step: Step, varianceArcmin2: number, isLast: boolean): WorkingRow {
  const variance = step.errors.reduce((sum, e) => sum + e.sigmaArcmin ** 2, 0);
  const correctionArcmin = step.correction?.arcminutes;
  return {
    rule: step.rule,
    title: step.title,
    kind: step.kind,
    latex: step.formula.latex,
    plain: step.formula.plain,
    figures: step.figures,
    inputs: step.inputs.map(inputRow),
    ...(correctionArcmin === undefined
      ? {}
      : { correctionArcmin, correction: formatCorrection(correctionArcmin) }),
    ...runningText(step),
    isSum: step.kind === 'rest' || (isLast && step.kind === 'result'),
    sigmaArcmin: Math.sqrt(variance),
    varianceShare: varianceArcmin2 > 0 ? variance / varianceArcmin2 : 0,
    source: step.source,
    ...(step.caution === undefined ? {} : { caution: step.caution }),
  };
}

/** The figures that nobody gave, each once: `temperature 10 °C`. */
function assumedTexts(steps: readonly Step[]): string[] {
  const inputs = steps.flatMap((s) => s.inputs).filter((i) => i.origin === 'assumed');
  return [...new Set(inputs.map((i) => `${i.name} ${i.text}`))];
}

/** An intercept is a distance, and so is what is uncertain in it. */
function sigmaUnitOf({ value, uncertainty }: Working<unknown>): Pick<WorkingData, 'sigmaUnit'> {
  if (value instanceof PositionLine || value instanceof Length) return { sigmaUnit: ' nm' };
  return uncertainty.unit === '′' ? {} : { sigmaUnit: uncertainty.unit };
}

/** A working of any value as plain data for the working view. A time by a lunar carries its own uncertainty, in seconds. */
export function workingData(working: Working<unknown>): WorkingData {
  const { varianceArcmin2 } = working.uncertainty;
  return {
    format: 1,
    title: working.title,
    rows: working.steps.map((step, i, all) => rowOf(step, varianceArcmin2, i === all.length - 1)),
    value: runningText(working.steps.at(-1) as Step).running,
    sigmaArcmin: working.value instanceof LunarTime ? 0 : Math.sqrt(varianceArcmin2),
    ...sigmaUnitOf(working),
    assumed: assumedTexts(working.steps),
    flags: [...working.flags],
    cautions: [...working.cautions],
  };
}
