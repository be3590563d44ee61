import { label, observationOf } from '../line/observation.js';
import type { Sight } from '../sextant/sight.js';
import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import type { SlipHypothesis } from './slip-hypotheses.js';
import { slipRule, slipRules, type SlipKind } from './slip-kinds.js';

/** Probability that a sight has a slip at all, before looking. */
export const SLIP_CHANCE = 0.02;
/** Share of the slips that are on no list. */
const UNLISTED = 0.1;

const TWO_READINGS =
  'Two readings that disagree do not say which of them is wrong: that follows from the other lines or the known place alone.';

/** A probability in per cent, never quite none and never quite all. @internal */
export const percent = (p: number): string =>
  p > 0.9995 ? '> 99.9 %' : p < 0.0005 ? '< 0.1 %' : `${(p * 100).toFixed(1)} %`;

/** One explanation of a sight, with how much is to be said for it. */
export interface SlipFinding {
  /** `clean`: nothing but scatter. `unexplained`: wrong, but by nothing on the list. */
  readonly kind: SlipKind | 'clean' | 'unexplained';
  /** The sight it is about; none for `clean` of a round. */
  readonly sight: Sight | null;
  /** Number of the reading it is about, from 1; null where it is about the whole sight. */
  readonly reading: number | null;
  /** How it was undone: `1° less`; empty for `clean` and `unexplained`. */
  readonly detail: string;
  /** Posterior probability, all findings of a report adding up to 1. */
  readonly probability: number;
  /** Odds against everything else together. */
  readonly odds: number;
  /** What would be left of the residual, were it so; null where that has no meaning. */
  readonly residual: Angle | null;
  /** A whole sentence. */
  readonly text: string;
  /** The sentence with its probability. */
  toString(): string;
}

/** Explanations of a sight or a round, the likeliest first. Nothing in the log is changed by it. */
export class SlipReport {
  constructor(
    readonly findings: readonly SlipFinding[],
    /** The residual as it stands, where a place is known. */
    readonly residual: Angle | null,
  ) {
    Object.freeze(this);
  }
  /** The likeliest finding. */
  get first(): SlipFinding {
    return this.findings[0] as SlipFinding;
  }
  /** The findings worth reading: four at most, and none after the first below half a per cent. */
  get likeliest(): readonly SlipFinding[] {
    return this.findings.slice(0, 4).filter((f, i) => i === 0 || f.probability > 0.005);
  }
  /** Whether nothing but scatter is the likeliest. */
  get clean(): boolean {
    return this.first.kind === 'clean';
  }
  /** Probability of a kind of slip, all sights together, 0 to 1. */
  probability(kind: SlipFinding['kind']): number {
    return this.findings.reduce((s, f) => s + (f.kind === kind ? f.probability : 0), 0);
  }
  /** The first explanations, one a line, with their probabilities. */
  toString(): string {
    return this.likeliest.join('\n');
  }
  /** The findings as plain data. */
  toJSON(): unknown {
    return {
      residualArcmin: this.residual?.arcminutes ?? null,
      findings: this.findings.slice(0, 10).map(({ kind, reading, detail, probability, text }) => ({
        kind,
        reading,
        detail,
        probability,
        text,
      })),
    };
  }
}

/** An explanation with the log probability of what was observed, were it so. */
export interface Scored {
  readonly kind: SlipFinding['kind'];
  readonly log: number;
  readonly h: SlipHypothesis | null;
  readonly sight?: Sight | null;
  /** The reading it is about, from 1; the whole sight unless given. */
  readonly reading?: number;
  /** Readings of the sight, where it is about one of them. */
  readonly of?: number;
  /** Part of the prior of the kind, where several sights could have it. */
  readonly share?: number;
}

/** Bayes' rule over all explanations; the prior of a kind is shared by its particulars. */
export function posterior<T extends Scored>(
  scored: readonly T[],
  chance: number,
): { item: T; probability: number }[] {
  const listed = scored.filter((s) => s.h).map((s) => s.kind as SlipKind);
  const possible = slipRules.filter((r) => listed.includes(r.kind));
  const total = possible.reduce((s, r) => s + r.frequency, 0);
  const particulars = (item: T) =>
    scored.filter((s) => s.kind === item.kind && s.sight === item.sight).length;
  const logs = scored.map((item) => {
    const prior =
      item.kind === 'clean'
        ? 1 - chance
        : item.kind === 'unexplained'
          ? (chance * UNLISTED) / particulars(item)
          : (chance * (1 - UNLISTED) * slipRule(item.kind).frequency) / total / particulars(item);
    return item.log + Math.log(prior * (item.share ?? 1));
  });
  const top = Math.max(...logs);
  const sum = logs.reduce((s, l) => s + Math.exp(l - top), 0);
  return scored
    .map((item, i) => ({ item, probability: Math.exp((logs[i] as number) - top) / sum }))
    .sort((a, b) => b.probability - a.probability);
}

/** An explanation in words. @param residualArcmin what is left of the residual, null where that has no meaning */
export function finding(
  { kind, h, reading, of }: Scored,
  sight: Sight | null,
  probability: number,
  residualArcmin: number | null,
): SlipFinding {
  const who = sight ? `${label(observationOf(sight))}: ` : '';
  const left = residualArcmin === null ? '' : ` Residual then ${formatCorrection(residualArcmin)}.`;
  const pair = reading && of === 2 ? ` ${TWO_READINGS}` : '';
  const text =
    kind === 'clean'
      ? `${who}nothing but scatter.${left}`
      : kind === 'unexplained'
        ? `${who}${reading ? `reading ${reading} of ${of} is ` : ''}wrong by something that is not on the list.${pair}`
        : `${who}${slipRule(kind).title} Undone (${h?.detail ?? ''}).${left}${pair}`;
  const found: SlipFinding = {
    kind,
    sight,
    reading: reading ?? null,
    detail: h?.detail ?? '',
    probability,
    odds: probability / Math.max(1 - probability, 1e-300),
    residual: residualArcmin === null ? null : Angle.arcminutes(residualArcmin),
    text,
  };
  // Not among its fields, so that lists and copies of a finding stay what they are.
  return Object.defineProperty(found, 'toString', {
    value: () => `${percent(probability)} ${text}`,
  });
}
