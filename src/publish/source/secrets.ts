import { textOf, type Notebook } from '../../kernel/runner/notebook.js';

/** What must not be found in a student edition. */
export interface Secret {
  readonly kind: 'figure' | 'solution';
  /** As it would stand in the notebook or in its printed working. */
  readonly text: string;
}

const LEAST_CODE = 16;
/** A line of an import or a list, as `observedAltitude,`: it gives nothing away. */
const ONE_NAME = /^[\w$]+\W?$/;
const LEAST_DIGITS = 4;

/**
 * The secrets of a notebook: solution lines that a student does not see elsewhere, and figures of the expected
 * working with at least four digits (a shorter one, `+1.4′`, stands by chance in any text, and often in what is given).
 * @param removed lines taken out of the student edition
 * @param figures the expected figures, printed and unrounded
 * @param student the student edition, before it is run
 * @param printed what the student is given: a figure there is no secret
 */
export function secretsOf(
  removed: readonly string[],
  figures: readonly string[],
  student: Notebook,
  printed: string,
): Secret[] {
  const open = student.cells.map((cell) => textOf(cell.source)).join('\n');
  const solution = [...new Set(removed.map((line) => line.trim()))]
    .filter((line) => line.replace(/\s/g, '').length >= LEAST_CODE && !ONE_NAME.test(line))
    .filter((line) => !open.includes(line))
    .map((text) => ({ kind: 'solution' as const, text }));
  const secretFigures = [...new Set(figures)]
    .filter(
      (text) => digits(text) >= LEAST_DIGITS && !printed.includes(text) && !open.includes(text),
    )
    .map((text) => ({ kind: 'figure' as const, text }));
  return [...solution, ...secretFigures];
}

/** How many figures count: without leading zeros. */
const digits = (text: string) => text.replace(/\D/g, '').replace(/^0+/, '').length;
