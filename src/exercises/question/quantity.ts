import {
  type Angle,
  angle,
  bearing,
  EntryError,
  formatAngle,
  formatBearing,
  formatCorrection,
  formatLatitude,
  formatLongitude,
  Instant,
  latitude,
  longitude,
} from '../../core/units/index.js';
import { asAngle, asInstant, asLength, type FigureValue } from './figure-value.js';
import { formatIndexError, indexError } from '../../core/sextant/index.js';
import type { ToleranceFor } from '../tolerance/index.js';
import { readChoice } from './choice.js';
import { formatDistance, formatIntercept, readDistance, readIntercept } from './distance-text.js';

/**
 * How a line's figure is read, compared and printed. `base` turns a value into one number in the tolerance's unit:
 * minutes of arc (north, east, toward and "to be added" positive), nautical miles, degrees of bearing, or seconds.
 */
export interface Quantity {
  readonly noun: string;
  /** The right form, shown in a refusal and beside an empty line. */
  readonly form: string;
  readonly unit: '′' | 'nm' | '°' | 's' | '';
  readonly toleranceFor?: ToleranceFor;
  /** The turn after which a figure repeats, in `unit`. */
  readonly turn?: number;
  /** Reads what a student wrote. @throws EntryError with the right form */
  read(text: string, context: ReadContext): FigureValue;
  /** The value as one number in `unit`. */
  base(value: FigureValue): number;
  /** The value in trade notation. */
  print(value: FigureValue): string;
}

/** What a reader may need besides the text: the day of the exercise, the words to choose from. */
export interface ReadContext {
  readonly day?: string;
  readonly choices?: readonly string[];
}

const minutes = (value: FigureValue): number => asAngle(value).arcminutes;
const degrees = (value: FigureValue): number => asAngle(value).degrees;

const quantity = (q: Quantity): Quantity => Object.freeze(q);

const CLOCK = /^\s*(\d{1,2})[:\s](\d{2})[:\s](\d{2}(?:\.\d+)?)\s*(?:utc|ut|z)?\s*$/i;

function readTime(text: string, { day }: ReadContext): Instant {
  const m = CLOCK.exec(text);
  if (m && day) return Instant.utc(`${day} ${(m[1] ?? '').padStart(2, '0')}:${m[2]}:${m[3]} UTC`);
  return Instant.utc(text);
}

const BARE = /^\s*[+\-−]?\s*\d+(?:\.\d+)?\s*$/;

/** The kinds of figure that lines of a working ask for. */
export const quantities = Object.freeze({
  correction: quantity({
    noun: 'correction',
    form: '+1.4′ or −2.8′',
    unit: '′',
    toleranceFor: 'correction',
    // On a line for a correction a figure without a mark can only be minutes.
    read: (text) => signedCorrection(BARE.test(text) ? `${text.trim()}′` : text),
    base: minutes,
    print: (v) => formatCorrection(minutes(v)),
  }),
  arc: quantity({
    noun: 'small angle',
    form: '15.9′',
    unit: '′',
    toleranceFor: 'correction',
    read: (text) => angle(text),
    base: minutes,
    print: (v) => `${minutes(v).toFixed(1).replace('-', '−')}′`,
  }),
  indexError: quantity({
    noun: 'index error',
    form: '1.4′ off the arc',
    unit: '′',
    toleranceFor: 'correction',
    read: (text) => indexError(text),
    base: minutes,
    print: (v) => formatIndexError(asAngle(v)),
  }),
  altitude: quantity({
    noun: 'altitude',
    form: '41°18.6′',
    unit: '′',
    toleranceFor: 'altitude',
    read: (text) => angle(text, { kind: 'altitude' }),
    base: minutes,
    print: (v) => formatAngle(degrees(v)),
  }),
  hourAngle: quantity({
    noun: 'hour angle',
    form: '327°41.9′',
    unit: '′',
    toleranceFor: 'hour angle',
    turn: 21600,
    read: (text) => angle(text),
    base: minutes,
    print: (v) => formatAngle(asAngle(v).normalized().degrees),
  }),
  declination: quantity({
    noun: 'declination',
    form: '17°56.2′ N',
    unit: '′',
    toleranceFor: 'declination',
    read: latitude,
    base: minutes,
    print: (v) => formatLatitude(degrees(v)),
  }),
  latitude: quantity({
    noun: 'latitude',
    form: '15°55.2′ S',
    unit: '′',
    toleranceFor: 'altitude',
    read: latitude,
    base: minutes,
    print: (v) => formatLatitude(degrees(v)),
  }),
  longitude: quantity({
    noun: 'longitude',
    form: '005°43.1′ W',
    unit: '′',
    toleranceFor: 'altitude',
    turn: 21600,
    read: longitude,
    base: minutes,
    print: (v) => formatLongitude(degrees(v)),
  }),
  bearing: quantity({
    noun: 'true bearing',
    form: '312°',
    unit: '°',
    toleranceFor: 'bearing',
    turn: 360,
    read: bearing,
    base: degrees,
    print: (v) => formatBearing(degrees(v)),
  }),
  intercept: quantity({
    noun: 'intercept',
    form: '2.3 nm toward or 0.8 nm away',
    unit: 'nm',
    toleranceFor: 'altitude',
    read: (text) => readIntercept(text),
    base: (v) => asLength(v).nauticalMiles,
    print: (v) => formatIntercept(asLength(v)),
  }),
  distance: quantity({
    noun: 'distance',
    form: '13.6 nm',
    unit: 'nm',
    toleranceFor: 'altitude',
    read: (text) => readDistance(text),
    base: (v) => asLength(v).nauticalMiles,
    print: (v) => formatDistance(asLength(v)),
  }),
  time: quantity({
    noun: 'time',
    form: '12:07:41 UTC',
    unit: 's',
    toleranceFor: 'time',
    read: readTime,
    base: (v) => asInstant(v).epochMs / 1000,
    print: (v) => asInstant(v).toString().slice(11),
  }),
  choice: quantity({
    noun: 'choice',
    form: 'one of the words given',
    unit: '',
    read: (text, { choices }) => readChoice(text, choices ?? []),
    base: () => 0,
    print: (v) => String(v),
  }),
  words: quantity({
    noun: 'answer in words',
    form: 'a sentence or two',
    unit: '',
    read: (text) => text.trim(),
    base: () => 0,
    print: (v) => String(v),
  }),
});

/** The kinds of figure that a line may ask for. */
export type QuantityName = keyof typeof quantities;

/** A correction has a sign unless it is nothing: a figure without one leaves open which way it goes. */
function signedCorrection(text: string): Angle {
  const value = angle(text);
  if (value.degrees !== 0 && !/^\s*[+\-−–]/.test(text))
    throw new EntryError(
      'A correction needs its sign. Write +1.4′ if it is added, −1.4′ if it is taken away.',
      text,
      0,
    );
  return value;
}

/** The difference a − b in the quantity's unit, the short way round where figures repeat after a turn. */
export function differenceOf(q: Quantity, a: FigureValue, b: FigureValue): number {
  const difference = q.base(a) - q.base(b);
  return q.turn === undefined ? difference : difference - q.turn * Math.round(difference / q.turn);
}

/** Whether two figures agree within `size` in the quantity's unit; words agree when they are the same. */
export function agree(q: Quantity, a: FigureValue, b: FigureValue, size: number): boolean {
  if (typeof a === 'string' || typeof b === 'string') return a === b;
  return Math.abs(differenceOf(q, a, b)) <= size + 1e-9;
}
