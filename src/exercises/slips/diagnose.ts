import {
  agree,
  differenceOf,
  figuresOf,
  quantities,
  type ExpectedLine,
  type FigureValue,
  type LineSlip,
  type Question,
} from '../question/index.js';
import { figureSlips } from './figure-slips.js';
import { termSlips } from './term-slips.js';

/** A slip that explains a wrong figure, and the names of others that would as well. */
export interface Diagnosis {
  readonly name: string;
  readonly sentence: string;
  readonly others: readonly string[];
}

const SAME = 1e-6;

/**
 * Looks for the slip that leads from the figures above to the student's wrong figure. Slips that the line itself
 * names come first, then terms of a sum, then mistaken givens (limb, day, hour, name of the latitude …), then
 * what can befall any figure; within a kind the nearest wins. A slip whose outcome agrees with the right figure
 * explains nothing and is left out.
 * @param above figures of the lines above, the student's own where given
 * @param size tolerance in the unit of the line
 */
export function diagnose<G>(
  question: Question<G>,
  line: ExpectedLine<G>,
  above: ReadonlyMap<string, FigureValue>,
  expected: FigureValue,
  written: FigureValue,
  size: number,
): Diagnosis | undefined {
  const kinds: (() => readonly LineSlip[])[] = [
    () => line.slips?.(question.given, figuresOf(above), expected) ?? [],
    () => termSlips(line as ExpectedLine<never>, above, (id) => question.line(id).title, expected),
    () => mistakenGivens(question, line, above),
    () => figureSlips(line.quantity, expected),
  ];
  const q = quantities[line.quantity];
  const fits: LineSlip[] = [];
  for (const kind of kinds) {
    const found = kind().filter(
      (slip) => agree(q, slip.value, written, size) && !agree(q, slip.value, expected, size),
    );
    const miss = (slip: LineSlip) =>
      typeof slip.value === 'string' ? 0 : Math.abs(differenceOf(q, slip.value, written));
    fits.push(...found.sort((a, b) => miss(a) - miss(b)));
  }
  const [first, ...rest] = fits;
  if (!first) return undefined;
  // A slip with the very same outcome is the same slip seen from another side.
  const apart = rest.filter((slip) => !agree(q, slip.value, first.value, SAME));
  const others = [...new Set(apart.map((slip) => slip.name))].filter((name) => name !== first.name);
  return { name: first.name, sentence: first.sentence, others };
}

/** What the line comes to when one thing that was given is mistaken. A mistake the rule cannot take is passed over. */
function mistakenGivens<G>(
  question: Question<G>,
  line: ExpectedLine<G>,
  above: ReadonlyMap<string, FigureValue>,
): LineSlip[] {
  return question.mistakes(question.given).flatMap(({ name, sentence, given }) => {
    try {
      return [{ name, sentence, value: line.rule(given, figuresOf(above)) }];
    } catch (error) {
      if (error instanceof RangeError || (error as Error).name === 'EntryError') return [];
      throw error;
    }
  });
}
