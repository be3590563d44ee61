import type { FigureValue } from '../question/index.js';
import type { Diagnosis } from '../slips/index.js';

/**
 * How a line stands. `right`: agrees with the right working. `follows`: right after the student's own figures above,
 * though those are not. `wrong`: neither. `missing`: nothing written. `unreadable`: written, but not a figure of that kind.
 * `words`: an answer in words, which the check keeps and does not judge.
 */
export type Standing = 'right' | 'follows' | 'wrong' | 'missing' | 'unreadable' | 'words';

/** The word for each standing, in feedback on a screen and on paper. */
export const standingWords: Readonly<Record<Standing, string>> = {
  right: 'right',
  follows: 'follows',
  wrong: 'wrong',
  missing: 'to write',
  unreadable: 'not read',
  words: 'to be read',
};

/** What was found about one line. */
export interface LineVerdict {
  readonly id: string;
  readonly title: string;
  readonly standing: Standing;
  /** Marks earned. */
  readonly marks: number;
  /** Marks that there are. */
  readonly outOf: number;
  /** As the student wrote it, or as it prints. */
  readonly written?: string;
  readonly figure?: FigureValue;
  /** Name of the slip recognised; absent where none was. */
  readonly slip?: Diagnosis;
  /** What is said to the student, in whole sentences, without the right figure. */
  readonly sentences: readonly string[];
}

/** Whether a line of that standing earns its marks. */
export const earns = (standing: Standing): boolean =>
  standing === 'right' || standing === 'follows' || standing === 'words';
