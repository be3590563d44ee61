import { Angle } from '../../core/units/index.js';
import { writtenAs } from '../../core/units/written-angle.js';
import { seedCode } from '../seed/index.js';
import {
  methodTolerance,
  readTolerance,
  standardTolerance,
  type Tolerance,
  type WorkingMethod,
} from '../tolerance/index.js';
import { figuresOf } from './figures.js';
import { asExpectedLine, type ExpectedLine, type LineInWords } from './line.js';
import type { FigureValue } from './figure-value.js';
import { quantities, type QuantityName } from './quantity.js';

/** One figure that the student is given, as it is printed: `['Height of eye', '2.6 m']`. */
export type GivenFigure = readonly [label: string, text: string];

/** The same question with one thing about the givens mistaken, for finding slips. */
export interface Mistaken<Given> {
  readonly name: string;
  readonly sentence: string;
  readonly given: Given;
}

/** A table that the student is given: the sights of a round, the page of a log. */
export interface GivenTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** A line as it is asked: a figure with its rule, or a question to answer in words. */
export type QuestionLine<Given> = ExpectedLine<Given> | LineInWords;

/** What a question is made from. */
export interface QuestionFields<Given> {
  /** Names the exercise in seeds, answers and marks: `sun-altitude`. */
  readonly id: string;
  /** Heading of the question. */
  readonly title: string;
  /** The task in whole sentences. */
  readonly task: string;
  /** What the rules of the lines work with. */
  readonly given: Given;
  /** What the student reads: name and figure. */
  readonly printed: readonly GivenFigure[];
  readonly table?: GivenTable;
  /** The working that is expected, in order. */
  readonly lines: readonly [QuestionLine<Given>, ...QuestionLine<Given>[]];
  /** From which the numbers were drawn; shown as a code. */
  readonly seed?: number;
  /** Whose numbers they are. */
  readonly student?: string;
  /** Without one, results are held to their published standard and other lines to `tables`. */
  readonly method?: WorkingMethod;
  /** Givens with one mistake each, tried when a line does not come out. */
  readonly mistakes?: (given: Given) => readonly Mistaken<Given>[];
  /** The day of the exercise, `2027-05-11`, for times written without a date. */
  readonly day?: string;
  readonly cautions?: readonly string[];
}

const ID = /^[a-zA-Z][\w-]*$/;

/** A question with the working expected of it. The figures expected are computed when asked for, never stored. */
export class Question<Given = unknown> {
  readonly id: string;
  readonly title: string;
  readonly task: string;
  readonly given: Given;
  readonly printed: readonly GivenFigure[];
  readonly table?: GivenTable;
  readonly lines: readonly ExpectedLine<Given>[];
  readonly seed?: number;
  readonly student?: string;
  readonly method?: WorkingMethod;
  readonly day?: string;
  readonly cautions: readonly string[];
  /** Givens with one mistake each, tried when a line does not come out. */
  readonly mistakes: (given: Given) => readonly Mistaken<Given>[];

  constructor(fields: QuestionFields<Given>) {
    this.id = fields.id;
    this.title = fields.title;
    this.task = fields.task;
    this.given = fields.given;
    this.printed = Object.freeze([...fields.printed]);
    this.lines = Object.freeze(
      fields.lines.map((line) => Object.freeze({ ...asExpectedLine<Given>(line) })),
    );
    if (fields.table !== undefined) this.table = fields.table;
    if (fields.seed !== undefined) this.seed = fields.seed;
    if (fields.student !== undefined) this.student = fields.student;
    if (fields.method !== undefined) this.method = fields.method;
    if (fields.day !== undefined) this.day = fields.day;
    this.cautions = Object.freeze([...(fields.cautions ?? [])]);
    this.mistakes = fields.mistakes ?? (() => []);
    this.refuseBadLines();
    Object.freeze(this);
  }

  /** The code of this student's numbers, `K7P-3QD2`; without a seed, none. */
  get code(): string | undefined {
    return this.seed === undefined ? undefined : seedCode(this.seed);
  }
  /** The question and its numbers in one line, as for a list of the class. */
  toString(): string {
    const { title, code, printed, table } = this;
    const numbers = [
      ...printed.map(([name, figure]) => `${name} ${String(figure)}`),
      ...(table?.rows ?? []).map((row) => row.join(' ').trim()),
    ].join('; ');
    return `${title}${code === undefined ? '' : ` (numbers ${code})`}: ${numbers}`;
  }
  /** Marks that a whole right working earns. */
  get marks(): number {
    return this.lines.reduce((sum, line) => sum + (line.marks ?? 1), 0);
  }
  /** The line of that key. @throws RangeError naming the lines there are */
  line(id: string): ExpectedLine<Given> {
    const found = this.lines.find((line) => line.id === id);
    if (!found)
      throw new RangeError(
        `this question has no line '${id}'; it has ${this.lines.map((l) => `'${l.id}'`).join(', ')}`,
      );
    return found;
  }
  /** The whole expected working. @param given the question's own unless a mistaken one is tried */
  expected(given: Given = this.given): ReadonlyMap<string, FigureValue> {
    const values = new Map<string, FigureValue>();
    for (const line of this.lines) {
      const value = line.rule(given, figuresOf(values));
      const print = () => quantities[line.quantity].print(value);
      values.set(line.id, value instanceof Angle ? writtenAs(value, print) : value);
    }
    return values;
  }
  /** How far the figure of a line may be off, and why: its own tolerance, the method's, or the standard's. */
  tolerance(line: ExpectedLine<Given>): Tolerance | undefined {
    if (line.tolerance !== undefined) return ownTolerance(line.tolerance);
    const what = quantities[line.quantity].toleranceFor;
    if (!what) return undefined;
    const inMiles = quantities[line.quantity].unit === 'nm';
    const found =
      this.method === undefined && line.standard
        ? standardTolerance(line.standard)
        : methodTolerance(this.method ?? 'tables', what);
    // A minute of arc of altitude is a nautical mile of intercept.
    return inMiles && found.unit === '′' ? { ...found, unit: 'nm' } : found;
  }

  private refuseBadLines(): void {
    const seen = new Set<string>();
    for (const { id, terms, quantity, tolerance } of this.lines) {
      if (!ID.test(id)) throw new RangeError(`a line is named by letters and digits, not '${id}'`);
      if (seen.has(id)) throw new RangeError(`two lines are named '${id}'`);
      const unknown = terms?.find((term) => !seen.has(term.line));
      if (unknown) throw new RangeError(`line '${id}' adds '${unknown.line}', which is not above`);
      refuseOtherUnit(id, quantity, tolerance);
      seen.add(id);
    }
    if (!ID.test(this.id))
      throw new RangeError(`a question is named by letters and digits, not '${this.id}'`);
  }
}

const ownTolerance = (own: Tolerance | string): Tolerance =>
  typeof own === 'string' ? readTolerance(own) : own;

/** A tolerance in another unit than the line's would be taken for so many of the line's. @throws RangeError */
function refuseOtherUnit(id: string, name: QuantityName, own?: Tolerance | string): void {
  if (own === undefined) return;
  const { unit } = quantities[name];
  const given = ownTolerance(own).unit;
  // A minute of arc of altitude is a nautical mile of intercept.
  const miles = (u: string) => (u === 'nm' ? '′' : u);
  if (miles(given) !== miles(unit))
    throw new RangeError(
      unit === ''
        ? `line '${id}' is answered in words and has no tolerance`
        : `line '${id}' is compared in ${unit}, so its tolerance cannot be in ${given}`,
    );
}

/** A question of your own: what is given, what is asked, and the working expected. @throws RangeError */
export function question<Given>(fields: QuestionFields<Given>): Question<Given> {
  return new Question(fields);
}
