import { formOfLine, type ExpectedLine } from '../question/index.js';
import type { LineVerdict } from './verdict.js';

/** What is said to the student about a line, in whole sentences that do not give the right figure away. */
export function sentencesFor<G>(
  line: ExpectedLine<G>,
  verdict: Omit<LineVerdict, 'sentences'> & { readonly sentences?: readonly string[] },
): readonly string[] {
  switch (verdict.standing) {
    case 'right':
      return verdict.sentences ?? ['This is right.'];
    case 'follows':
      return [
        'This follows from your figures above and earns its marks; it changes when the line above is put right.',
      ];
    case 'missing':
      return [`Nothing is written here yet. Write it as ${formOfLine(line)}.`];
    case 'words':
      return ['Your teacher reads this.'];
    case 'unreadable':
      return verdict.sentences ?? [];
    case 'wrong':
      return wrong(line, verdict);
  }
}

function wrong<G>(line: ExpectedLine<G>, { slip }: Omit<LineVerdict, 'sentences'>): string[] {
  const hint = line.hint ? [line.hint] : [];
  if (!slip)
    return [
      `This does not follow from what is given and from your lines above. It is worked as ${line.formula}.`,
      ...hint,
    ];
  const doubt =
    slip.others.length > 0
      ? [`It could also be this slip: ${slip.others.slice(0, 3).join('; ')}.`]
      : [];
  return [slip.sentence, ...doubt, ...hint];
}
