import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import {
  Working,
  type ErrorCause,
  type Origin,
  type Step,
  type StepInput,
} from '../working/working.js';

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

/** A working of one correction by itself; its value is the signed correction, to be added. */
export const alone = (title: string, step: CorrectionStep, flags: readonly string[] = []) =>
  new Working<Angle>(title, [step], flags);

/** Where a correction does not apply: a working of nought that says why. */
export function nothingToApply(rule: string, title: string, why: string): Working<Angle> {
  return alone(
    title,
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
    }),
  );
}
