import {
  agree,
  figuresOf,
  quantities,
  type ExpectedLine,
  type FigureValue,
  type Question,
} from '../question/index.js';
import { ROUNDING_EDGE } from '../tolerance/index.js';
import { diagnose } from '../slips/index.js';
import { CheckFailed } from './check-failed.js';
import { Feedback } from './feedback.js';
import { isMarksRun } from './marks-run.js';
import { tellChecked } from './on-checked.js';
import { readFigure } from './read-figure.js';
import { sentencesFor } from './sentences.js';
import { earns, type LineVerdict, type Standing } from './verdict.js';

/** What a student hands in: line key to figure, as text or as a value of the library. */
export type Answer = Readonly<Record<string, unknown>>;

/** How an answer is to be checked. */
export interface CheckOptions {
  /** A failed check is thrown as an error; as the run says (`runForMarks`, `COCKED_HAT_MARKS=1`) unless told. */
  readonly marks?: boolean;
}

/**
 * Checks a working line by line with follow-through: each line is recomputed from the student's own figures above it,
 * so that one slip costs one line. The first wrong line is named and, where its figure betrays it, the slip.
 * @throws CheckFailed in a run for marks, when a line earns nothing; EntryError when the answer is no set of lines
 */
export function check<G>(
  question: Question<G>,
  answer: Answer,
  { marks = isMarksRun() }: CheckOptions = {},
): Feedback {
  const feedback = examine(question, answer);
  tellChecked(feedback);
  if (marks && !feedback.passed) throw new CheckFailed(feedback);
  return feedback;
}

function examine<G>(question: Question<G>, given: Answer): Feedback {
  const answer = linesOf(given);
  const right = question.expected();
  const above = new Map<string, FigureValue>();
  const verdicts = question.lines.map((line) => {
    const expected = followed(line, question, above, right);
    const verdict = judge(question, line, answer[line.id], expected, right, above);
    above.set(line.id, verdict.figure ?? expected);
    return verdict;
  });
  const unknown = Object.keys(answer).filter((key) => !question.lines.some((l) => l.id === key));
  return new Feedback(question.id, question.title, verdicts, question.code, unknown.slice(0, 20));
}

function linesOf(answer: Answer): Answer {
  if (typeof answer === 'object' && answer !== null && !Array.isArray(answer)) return answer;
  throw new TypeError(
    "the answer is a list of lines with their figures: { indexCorrection: '+1.4′', dip: '−2.8′' }",
  );
}

/** The line after the student's own figures above; the right one where those lead nowhere (an altitude over 90°). */
function followed<G>(
  line: ExpectedLine<G>,
  question: Question<G>,
  above: ReadonlyMap<string, FigureValue>,
  right: ReadonlyMap<string, FigureValue>,
): FigureValue {
  try {
    return line.rule(question.given, figuresOf(above));
  } catch (error) {
    const value = right.get(line.id);
    if (
      value !== undefined &&
      (error instanceof RangeError || (error as Error).name === 'EntryError')
    )
      return value;
    throw error;
  }
}

const NOT_FROM_ABOVE =
  'This is right, but your figures above do not lead to it: one of them still needs to be put right.';

function judge<G>(
  question: Question<G>,
  line: ExpectedLine<G>,
  entry: unknown,
  expected: FigureValue,
  right: ReadonlyMap<string, FigureValue>,
  above: ReadonlyMap<string, FigureValue>,
): LineVerdict {
  const outOf = line.marks ?? 1;
  const read = readFigure(question, line, entry);
  const made = (standing: Standing, more: Partial<LineVerdict> = {}): LineVerdict => {
    const verdict = {
      id: line.id,
      title: line.title,
      standing,
      marks: earns(standing) ? outOf : 0,
      outOf,
      ...more,
    };
    return { ...verdict, sentences: sentencesFor(line, verdict) };
  };
  if ('missing' in read) return made('missing');
  if ('refused' in read)
    return made('unreadable', { written: read.written, sentences: [read.refused] });
  const { figure, written } = read;
  if (line.quantity === 'words') return made('words', { written, figure });
  const q = quantities[line.quantity];
  const size = (question.tolerance(line)?.size ?? 0) + ROUNDING_EDGE;
  const truth = right.get(line.id);
  const follows = agree(q, figure, expected, size);
  if (truth !== undefined && agree(q, figure, truth, size))
    return made('right', { written, figure, ...(follows ? {} : { sentences: [NOT_FROM_ABOVE] }) });
  if (follows) return made('follows', { written, figure });
  const slip = diagnose(question, line, above, expected, figure, size);
  return made('wrong', { written, figure, ...(slip ? { slip } : {}) });
}
