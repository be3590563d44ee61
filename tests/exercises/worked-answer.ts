import { figuresOf, type Question } from '../../src/exercises/question/index.js';
import { quantities, type FigureValue } from '../../src/exercises/index.js';

export type Slips = Readonly<Record<string, (right: FigureValue) => FigureValue | string>>;

/**
 * What a student writes who works every line from the figures above as printed, to the tenth, and makes the given
 * slips: one slip spoils the lines after it as it would on paper.
 */
export function workedAnswer<G>(q: Question<G>, slips: Slips = {}): Record<string, string> {
  const above = new Map<string, FigureValue>();
  const written: Record<string, string> = {};
  for (const line of q.lines) {
    const right = follow(q, line.id, above);
    const made = slips[line.id]?.(right) ?? right;
    const kind = quantities[line.quantity];
    const text = typeof made === 'string' ? made : kind.print(made);
    written[line.id] = text;
    above.set(
      line.id,
      kind.read(text, { day: q.day ?? '', ...(line.choices ? { choices: line.choices } : {}) }),
    );
  }
  return written;
}

/** The line after the figures above; where a slip made those impossible, as on a clean sheet. */
function follow<G>(
  q: Question<G>,
  id: string,
  above: ReadonlyMap<string, FigureValue>,
): FigureValue {
  try {
    return q.line(id).rule(q.given, figuresOf(above));
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return q.expected().get(id) as FigureValue;
  }
}
