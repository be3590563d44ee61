import type { Angle, Instant, Length } from '../../core/units/index.js';
import type { StandardName, Tolerance, ToleranceText } from '../tolerance/index.js';
import type { FigureValue } from './figure-value.js';
import type { QuantityName } from './quantity.js';

/** The figures of the lines above, for the rule of a line: the student's own where there are any. */
export interface Figures {
  /** @throws RangeError when the line has another kind of figure, or comes later */
  angle(line: string): Angle;
  /** The distance that a line gave. @throws RangeError when the line has another kind of figure, or comes later */
  length(line: string): Length;
  /** The time that a line gave. @throws RangeError when the line has another kind of figure, or comes later */
  instant(line: string): Instant;
  /** The word that a line gave. @throws RangeError when the line has another kind of figure, or comes later */
  word(line: string): string;
}

/** A slip that a line invites: what comes out when it is made, and a sentence that teaches. */
export interface LineSlip {
  /** A short name, the same for every line that invites it: `sign of the correction`. */
  readonly name: string;
  readonly value: FigureValue;
  /** One whole sentence to the student, without the right figure. */
  readonly sentence: string;
}

/** One line of the working that is expected. */
export interface ExpectedLine<Given> {
  /** The key under which the student writes it: `dip`. */
  readonly id: string;
  /** What it is, for headings and sentences: `Dip of the horizon`. */
  readonly title: string;
  readonly quantity: QuantityName;
  /** How it comes about, as a navigator says it: `Ho = ha + refraction + SD + parallax`. Never with figures. */
  readonly formula: string;
  /** Works the line from what is given and from the figures above. */
  readonly rule: (given: Given, figures: Figures) => FigureValue;
  /** Earlier lines that are added up with their sign: a slip in one of them is looked for. */
  readonly terms?: readonly { readonly line: string; readonly sign: 1 | -1 }[];
  /** Usual slips of this line; one whose outcome equals the right figure is left out. */
  readonly slips?: (given: Given, figures: Figures, expected: FigureValue) => readonly LineSlip[];
  /** One more sentence when the line is wrong. */
  readonly hint?: string;
  /** 1 unless told. */
  readonly marks?: number;
  /** The published standard that holds when the exercise names no method. */
  readonly standard?: StandardName;
  /** How near it has to be, `0.5 nm`; holds before method and standard. */
  readonly tolerance?: Tolerance | ToleranceText;
  /** The words to choose from, for a `choice`. */
  readonly choices?: readonly string[];
}

/** A line to answer in words: kept for the teacher to read, and without marks of the check's. */
export interface LineInWords {
  /** The key under which the student writes it: `why`. */
  readonly id: string;
  /** The question itself: `How do you know?` */
  readonly title: string;
  readonly quantity: 'words';
  readonly hint?: string;
}

/** A line in words in the form of any other: nothing is expected of it. */
export const asExpectedLine = <G>(line: ExpectedLine<G> | LineInWords): ExpectedLine<G> =>
  line.quantity === 'words'
    ? { ...line, formula: 'your own words', rule: () => '', marks: 0 }
    : (line as ExpectedLine<G>);
