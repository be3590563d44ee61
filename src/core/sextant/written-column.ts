import { Angle } from '../units/angle.js';
import { formatAngle, formatCorrection } from '../units/angle-format.js';
import type { Step, Working } from '../working/working.js';

/** Symbols of the trade for the rules of a sight's working. */
const SYMBOLS: Readonly<Record<string, string>> = {
  reading: 'hs',
  index: 'IC',
  instrument: 'I',
  halving: '÷ 2',
  dip: 'dip',
  'back-sight': '180°−',
  apparent: 'ha',
  refraction: 'refr',
  semidiameter: 'SD',
  augmentation: 'aug',
  parallax: 'p',
  'earth-figure': 'OB',
  phase: 'phase',
  observed: 'Ho',
};

/** One line of the column: a correction or an altitude, rounded to the tenth of a minute. */
export interface WrittenLine {
  readonly rule: string;
  readonly symbol: string;
  /** `+1.4′` or `41°17.2′`. */
  readonly text: string;
}

/**
 * A sight's working as it is written with a pencil: every figure rounded to the tenth before it is added, so that the
 * column adds up on paper. Its sum may differ from the unrounded altitude by a tenth or two.
 */
export class WrittenColumn {
  constructor(
    readonly lines: readonly WrittenLine[],
    /** The sum of the rounded figures. */
    readonly value: Angle,
  ) {
    Object.freeze(this);
  }
  /** The column as text, one line a figure. */
  toString(): string {
    const wide = Math.max(...this.lines.map((l) => l.symbol.length));
    const long = Math.max(...this.lines.map((l) => l.text.length));
    return this.lines.map((l) => `${l.symbol.padEnd(wide)}  ${l.text.padStart(long)}`).join('\n');
  }
  /** Lines and value as plain data. */
  toJSON(): unknown {
    return { lines: this.lines, value: this.value };
  }
}

/**
 * Writes a working from reading to observed altitude as a column of tenths, each figure rounded before it is added. The sum may differ from
 * the unrounded altitude by some tenths.
 * @param working what `observedAltitude` gave
 */
export function writtenColumn(working: Working<Angle>): WrittenColumn {
  let tenths = 0;
  const lines = (working.steps as readonly Step<Angle>[]).map((step) => {
    const symbol = SYMBOLS[step.rule] ?? step.title;
    if (step.kind === 'correction' && step.correction) {
      const amount = roundTenths(step.correction);
      tenths += amount;
      return { rule: step.rule, symbol, text: formatCorrection(amount / 10) };
    }
    tenths = reached(step, tenths);
    return { rule: step.rule, symbol, text: formatAngle(tenths / 600) };
  });
  return new WrittenColumn(lines, Angle.arcminutes(tenths / 10));
}

/** The running value in tenths after a step that is not an addition. */
function reached(step: Step<Angle>, tenths: number): number {
  switch (step.rule) {
    case 'halving':
      return Math.round(tenths / 2);
    case 'back-sight':
      return 180 * 600 - tenths;
    case 'apparent':
    case 'observed':
      return tenths;
    default:
      return roundTenths(step.result);
  }
}

const roundTenths = (angle: Angle) => Math.round(angle.arcminutes * 10);
