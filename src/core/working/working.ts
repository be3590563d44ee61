import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import { writtenAs } from '../units/written-angle.js';

/** Where a figure put into a step came from. `assumed` marks what the user did not give. */
export type Origin = 'reading' | 'given' | 'assumed' | 'table' | 'computed' | 'earlier step';

/** One figure put into a step: what it is, its symbol, the value and the text as a navigator writes it. */
export interface StepInput {
  /** In words: `height of eye`. */
  readonly name: string;
  /** As in the formula: `h`. */
  readonly symbol?: string;
  readonly value: unknown;
  /** As a navigator writes it. */
  readonly text: string;
  /** Where it came from. */
  readonly origin: Origin;
}

/**
 * One independent cause of error, as a standard deviation in minutes of arc of altitude. Sights that name the
 * same `sharedKey` share the same error (an index error of one session): their covariance is not diagonal.
 */
export interface ErrorCause {
  /** What errs: `index`, `dip`, `watch` … */
  readonly cause: string;
  readonly sigmaArcmin: number;
  /** Sights with the same key have the same error. */
  readonly sharedKey?: string;
}

/**
 * One rung of a working.
 * - `entry`: what is started from (a reading); `correction`: an amount added; `rest`: a named value reached on
 *   the way (apparent altitude); `result`: what is computed from the above.
 */
export interface Step<R = unknown> {
  /** Name of the rule, by which `working.step(rule)` finds it. */
  readonly rule: string;
  /** What the step does, as a heading. */
  readonly title: string;
  readonly kind: 'entry' | 'correction' | 'rest' | 'result';
  /** As LaTeX and as plain text. */
  readonly formula: { readonly latex: string; readonly plain: string };
  /** The figures put in, as a navigator writes the arithmetic: `1.758 √2.6`. */
  readonly figures: string;
  /** The figures put in, with where each came from. */
  readonly inputs: readonly StepInput[];
  /** The signed amount added, for a correction. */
  readonly correction?: Angle;
  /** The running value after this step. */
  readonly result: R;
  /** The running value in words or letters where a sign would not do: `21°50.1′ S`, `17.0° W`, `307.0°`. */
  readonly written?: string;
  /** Causes of error that this step brings in. */
  readonly errors: readonly ErrorCause[];
  /** Where the rule or figure stands. */
  readonly source: string;
  /** What to look out for; absent where there is nothing. */
  readonly caution?: string;
}

/** How well a value is known: 1σ and its independent causes. */
export class Uncertainty {
  /** @param unit how it is written: minutes of arc, nautical miles where the value is a distance or a position, degrees for a bearing */
  constructor(
    readonly causes: readonly ErrorCause[],
    readonly unit: '′' | ' nm' | '°' = '′',
  ) {
    Object.freeze(this);
  }
  /** One standard deviation. */
  get sigma(): Angle {
    return Angle.arcminutes(Math.sqrt(this.varianceArcmin2));
  }
  /** Sum of the squares of all causes, square minutes of arc. */
  get varianceArcmin2(): number {
    return this.causes.reduce((sum, c) => sum + c.sigmaArcmin ** 2, 0);
  }
  /** `± 0.7′, 1σ`, `± 1.0 nm, 1σ`, or `± 0.5°, 1σ`; to a hundredth where a tenth would say nothing. */
  toString(): string {
    const { degrees, arcminutes } = this.sigma;
    const sigma = this.unit === '°' ? degrees : arcminutes;
    return `± ${sigma.toFixed(sigma < 0.05 ? 2 : 1)}${this.unit}, 1σ`;
  }
  /** Plain data: total and causes, minutes of arc. */
  toJSON(): unknown {
    return { sigmaArcmin: this.sigma.arcminutes, causes: this.causes };
  }
}

/** A result together with its steps. Frozen; `value` is the result of the last step. */
export class Working<V = Angle> {
  readonly value: V;
  readonly uncertainty: Uncertainty;
  readonly steps: readonly Step[];
  /** @param title what is worked out, e.g. `Observed altitude: Sun, lower limb`. */
  constructor(
    readonly title: string,
    steps: readonly [...Step[], Step<V>],
    /** Flags that say the result must not be taken at face value, in whole sentences. */
    readonly flags: readonly string[] = [],
    uncertainty?: Uncertainty,
  ) {
    const last = steps.at(-1);
    if (!last) throw new RangeError('a working needs at least one step');
    this.steps = Object.freeze(steps.map((s) => Object.freeze(asWritten(s))));
    this.value = this.steps.at(-1)?.result as V;
    this.uncertainty = uncertainty ?? new Uncertainty(steps.flatMap((s) => s.errors));
    Object.freeze(this);
  }
  /** Cautions of all steps, each once. */
  get cautions(): readonly string[] {
    return [...new Set(this.steps.flatMap((s) => (s.caution ? [s.caution] : [])))];
  }
  /** The step of that rule, e.g. `working.step('dip')`. @throws RangeError naming the rules there are. */
  step(rule: string): Step {
    const found = this.steps.find((s) => s.rule === rule);
    if (!found)
      throw new RangeError(
        `this working has no step '${rule}'; it has ${this.steps.map((s) => `'${s.rule}'`).join(', ')}`,
      );
    return found;
  }
  /** What was worked out, the value as a navigator writes it, and how well it is known: `Dip: Sun, lower limb: −2.8′ ± 0.4′, 1σ`. */
  toString(): string {
    const { result, written } = this.steps.at(-1) as Step;
    const value = written ?? (hasOwnText(result) ? String(result) : '');
    const spread = this.uncertainty.sigma.degrees > 0 ? ` ${this.uncertainty.toString()}` : '';
    return value === '' ? this.title : `${this.title}: ${value}${spread}`;
  }
  /** Plain data without methods, angles as their own JSON; stable. */
  toJSON(): unknown {
    return {
      title: this.title,
      value: this.value,
      uncertainty: this.uncertainty,
      steps: this.steps,
      flags: this.flags,
    };
  }
}

/** What is an angle in a step prints as the step writes it, a correction as minutes with their sign. */
function asWritten(step: Step): Step {
  const { result, written, correction } = step;
  const signed = correction && writtenAs(correction, () => formatCorrection(correction.arcminutes));
  const own = result === correction ? signed : result;
  return {
    ...step,
    ...(signed ? { correction: signed } : {}),
    result:
      written !== undefined && result instanceof Angle ? writtenAs(result, () => written) : own,
  };
}

const hasOwnText = (value: unknown): boolean =>
  typeof value !== 'object' || (value !== null && value.toString !== Object.prototype.toString);
