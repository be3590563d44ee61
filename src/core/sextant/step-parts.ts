import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import { workedFrom } from '../working/subject.js';
import {
  Working,
  type ErrorCause,
  type Origin,
  type Step,
  type StepInput,
} from '../working/working.js';
import type { Sight } from './sight.js';

/** A step of a correction before it takes its place in a working: its result is the correction itself. */
export type CorrectionStep = Step<Angle> & { readonly correction: Angle };

export interface CorrectionParts {
  readonly rule: string;
  readonly title: string;
  readonly latex: string;
  readonly plain: string;
  readonly figures: string;
  readonly inputs: readonly StepInput[];
  readonly arcmin: number;
  readonly errors: readonly ErrorCause[];
  readonly source: string;
  readonly caution?: string;
}

export function correctionStep(parts: CorrectionParts): CorrectionStep {
  const correction = Angle.arcminutes(parts.arcmin);
  return {
    rule: parts.rule,
    title: parts.title,
    kind: 'correction',
    formula: { latex: parts.latex, plain: parts.plain },
    figures: parts.figures,
    inputs: parts.inputs,
    correction,
    result: correction,
    errors: parts.errors,
    source: parts.source,
    ...(parts.caution === undefined ? {} : { caution: parts.caution }),
  };
}

/** One figure put into a step. */
export function stepInput(
  name: string,
  symbol: string,
  value: unknown,
  text: string,
  origin: Origin,
): StepInput {
  return { name, symbol, value, text, origin };
}

/** One correction to be shown by itself. */
export interface OneCorrection {
  /** Name of the public function, so that a view can work it again. */
  readonly procedure: string;
  readonly rule: string;
  readonly name: string;
  /** Absent where the correction does not apply. */
  readonly step: CorrectionStep | undefined;
  /** Why it does not apply, where it does not. */
  readonly otherwise?: string;
  readonly flags?: readonly string[];
}

/** A working of one correction; its value is the signed amount, to be added. Where none applies, nought that says why. */
export function oneCorrection(sight: Sight, one: OneCorrection): Working<Angle> {
  const title = `${one.name}: ${sight.bodyAndLimb}`;
  const step = one.step ?? nothing(one.rule, one.name, one.otherwise ?? 'does not apply');
  const working = new Working<Angle>(title, [step], one.step ? one.flags : []);
  return workedFrom(working, one.procedure, sight);
}

const nothing = (rule: string, title: string, why: string): CorrectionStep =>
  correctionStep({
    rule,
    title,
    latex: '0',
    plain: 'none',
    figures: `${why}: ${formatCorrection(0)}`,
    inputs: [],
    arcmin: 0,
    errors: [],
    source: 'by definition',
  });
