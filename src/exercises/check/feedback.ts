import { earns, type LineVerdict } from './verdict.js';

/** What a check found, line by line. Holds no right figure, only the student's own. Frozen. */
export class Feedback {
  readonly lines: readonly LineVerdict[];
  constructor(
    /** The question's id, title and the code of the numbers. */
    readonly question: string,
    readonly title: string,
    lines: readonly LineVerdict[],
    readonly code?: string,
    /** Keys in the answer that no line has. */
    readonly unknown: readonly string[] = [],
  ) {
    this.lines = Object.freeze(lines.map((line) => Object.freeze(line)));
    Object.freeze(this);
  }

  /** Marks earned. */
  get marks(): number {
    return this.lines.reduce((sum, line) => sum + line.marks, 0);
  }
  /** Marks that there are. */
  get outOf(): number {
    return this.lines.reduce((sum, line) => sum + line.outOf, 0);
  }
  /** Every line earns its marks. */
  get passed(): boolean {
    return this.lines.every((line) => earns(line.standing));
  }
  /** The line where the working first goes wrong; missing lines count only when nothing written is wrong. */
  get firstWrong(): LineVerdict | undefined {
    return (
      this.lines.find(({ standing }) => standing === 'wrong' || standing === 'unreadable') ??
      this.lines.find(({ standing }) => standing === 'missing')
    );
  }
  /** The slips that were recognised. */
  get slips(): readonly { readonly line: string; readonly name: string }[] {
    return this.lines.flatMap(({ id, slip }) => (slip ? [{ line: id, name: slip.name }] : []));
  }
  /** One or two sentences on the whole. */
  get summary(): string {
    const judged = this.lines.filter((line) => !isInWords(line));
    if (this.passed) return ALL_RIGHT[judged.length] ?? `All ${judged.length} lines are right.`;
    const done = judged.filter(({ standing }) => earns(standing)).length;
    const first = this.firstWrong;
    const start = `${done} of ${judged.length} lines ${done === 1 ? 'stands' : 'stand'}`;
    if (!first) return `${start}.`;
    return first.standing === 'missing'
      ? `${start}; the first still to write is “${first.title}”.`
      : `${start}; the working first goes wrong at “${first.title}”.`;
  }
  /** The whole feedback as plain text. */
  get text(): string {
    const head = `${this.title}: ${this.summary}`;
    const lines = this.lines.map(
      (line) => `  ${MARK[line.standing]} ${line.title}: ${line.sentences.join(' ')}`,
    );
    const extra = this.unknown.map((key) => `  There is no line '${key}'; check its spelling.`);
    return [head, ...lines, ...extra, `Marks: ${this.marks} of ${this.outOf}.`].join('\n');
  }
  /** The verdict in plain text, a line each. */
  toString(): string {
    return this.text;
  }
  /** Verdicts and marks as plain data. */
  toJSON(): unknown {
    return {
      question: this.question,
      title: this.title,
      code: this.code,
      marks: this.marks,
      outOf: this.outOf,
      firstWrong: this.firstWrong?.id,
      lines: this.lines.map(({ id, title, standing, marks, outOf, written, slip, sentences }) => ({
        id,
        title,
        standing,
        marks,
        outOf,
        written,
        slip: slip?.name,
        sentences,
      })),
    };
  }
}

/** A line for the teacher to read has no marks of the check's, written or not. */
const isInWords = ({ standing, outOf }: LineVerdict): boolean =>
  standing === 'words' || (standing === 'missing' && outOf === 0);

const ALL_RIGHT: Readonly<Record<number, string>> = {
  0: 'Your teacher reads this.',
  1: 'The line is right.',
  2: 'Both lines are right.',
};
const MARK = {
  right: '✓',
  follows: '✓',
  wrong: '✗',
  missing: '–',
  unreadable: '?',
  words: '·',
} as const;
