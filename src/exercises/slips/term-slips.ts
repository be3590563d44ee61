import { Angle } from '../../core/units/index.js';
import type { ExpectedLine, FigureValue, LineSlip } from '../question/index.js';

/** In a sentence: the title with a small first letter unless it starts with a name or a symbol. */
export const inSentence = (title: string): string =>
  /^[A-Z][a-z]/.test(title) && !/^(?:Sun|Moon|Venus|Mars|Jupiter|Saturn|Greenwich)\b/.test(title)
    ? title.charAt(0).toLowerCase() + title.slice(1)
    : title;

/**
 * Slips of a line that is a sum: one term forgotten, taken with the other sign, or added twice.
 * @param figures the figures of the lines above that the sum was worked from
 */
export function termSlips(
  line: ExpectedLine<never>,
  figures: ReadonlyMap<string, FigureValue>,
  titleOf: (id: string) => string,
  expected: FigureValue,
): LineSlip[] {
  if (!(expected instanceof Angle)) return [];
  return (line.terms ?? []).flatMap(({ line: id, sign }) => {
    const term = figures.get(id);
    if (!(term instanceof Angle) || term.degrees === 0) return [];
    const title = inSentence(titleOf(id));
    const without = (times: number) => expected.minus(term.times(sign * times));
    return [
      {
        name: `sign of ${title}`,
        value: without(2),
        sentence: `The line “${titleOf(id)}” was taken with the wrong sign.`,
      },
      {
        name: `${title} forgotten`,
        value: without(1),
        sentence: `The line “${titleOf(id)}” was left out of the sum.`,
      },
      {
        name: `${title} twice`,
        value: without(-1),
        sentence: `The line “${titleOf(id)}” was added twice.`,
      },
    ];
  });
}
