import type { Angle } from '../units/angle.js';
import { formatLatitude } from '../units/angle-format.js';
import type { Instant } from '../units/instant.js';
import type { ErrorCause, Step, StepInput } from '../working/working.js';

/** The parts of a step that a method gives; the rest has a plain default. */
export interface StepParts<R> {
  readonly rule: string;
  readonly title: string;
  readonly kind?: Step['kind'];
  readonly plain: string;
  readonly latex?: string;
  readonly figures: string;
  readonly inputs?: readonly StepInput[];
  readonly correction?: Angle;
  readonly result: R;
  /** How the result is written, where that is not the angle with its sign. */
  readonly written?: string;
  readonly errors?: readonly ErrorCause[];
  readonly source?: string;
  readonly caution?: string | undefined;
}

/** A step of a method. */
export function methodStep<R>(p: StepParts<R>): Step<R> {
  return {
    rule: p.rule,
    title: p.title,
    kind: p.kind ?? 'result',
    formula: { latex: p.latex ?? `\\text{${p.plain}}`, plain: p.plain },
    figures: p.figures,
    inputs: p.inputs ?? [],
    result: p.result,
    errors: p.errors ?? [],
    source: p.source ?? 'geometry',
    ...(p.written === undefined ? {} : { written: p.written }),
    ...(p.correction ? { correction: p.correction } : {}),
    ...(p.caution ? { caution: p.caution } : {}),
  };
}

/** A figure put in. */
export function figure(
  name: string,
  symbol: string,
  value: unknown,
  text: string,
  origin: StepInput['origin'] = 'given',
): StepInput {
  return { name, symbol, value, text, origin };
}

/** `17°54.3′ N` for a declination. */
export const declinationText = (d: Angle): string => formatLatitude(d.degrees);

/** `12°18.0′ W`: the meridian angle, from −180° to 180°, west of the meridian positive. */
export const meridianAngleText = (t: Angle): string =>
  `${t.abs().toString()} ${t.degrees < 0 ? 'E' : 'W'}`;

/** `11:44:42 UTC`. */
export const clockText = (at: Instant): string => at.toSecond().slice(11);

export const BOWDITCH = 'Bowditch, American Practical Navigator, NGA Pub. 9 (from memory)';
