import { Angle } from '../units/angle.js';
import { angle } from '../units/angle-text.js';
import { EntryError } from '../units/errors.js';
import { Instant } from '../units/instant.js';
import { valueOrText } from '../units/value-or-text.js';
import { apparentPlace } from '../sky/apparent-place.js';
import { Working, type Step } from '../working/working.js';
import { formatIndexError, indexError } from './index-error-text.js';
import { stepInput } from './step-parts.js';
import type { OneOrMore } from './sight-fields.js';
import { shown } from './shown.js';

/** One contact of two images, one standard deviation, minutes of arc: common practice, no source. */
const CONTACT_ARCMIN = 0.2;
/** The measured semi-diameter may differ from the almanac's by this before the check is doubted. */
const SD_LIMIT_ARCMIN = 0.3;
/** No contact of the Sun's limbs is farther from nought than its diameter and the largest index error. */
const GREATEST_CONTACT_ARCMIN = 100;

/** A contact without a mark is minutes: nothing else is read in an index check. */
const BARE_NUMBER = /^\s*\d+(?:\.\d+)?\s*$/;

const listOf = <T>(value: OneOrMore<T>): readonly T[] =>
  Array.isArray(value) ? (value as readonly T[]) : [value as T];
const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
const tenth = (arcmin: number) => `${arcmin.toFixed(1)}′`;

/**
 * Index error from the horizon or a star: the direct and the reflected image brought into one, once or several times.
 * @param readings `0.8′ on the arc`, `1.4′ off`; one or a list
 * @returns a working whose value is the index error, on the arc positive; give it as a sight's `indexError`.
 * @throws EntryError as for an index error
 */
export function indexErrorFromHorizon(readings: OneOrMore<string>): Working<Angle> {
  const texts = listOf(readings);
  if (texts.length === 0)
    throw new EntryError("An index check needs a reading: '0.8′ on the arc'.", '');
  const errors = texts.map(indexError);
  const value = Angle.arcminutes(mean(errors.map((e) => e.arcminutes)));
  const n = texts.length;
  const step: Step<Angle> = {
    rule: 'index-error',
    title: 'Index error from the horizon',
    kind: 'result',
    formula:
      n === 1
        ? { latex: 'IE', plain: 'the arc read with both images in one line' }
        : { latex: 'IE = \\tfrac{1}{n}\\sum IE_i', plain: 'mean of the readings, on the arc +' },
    figures: `${n === 1 ? texts[0] : `(${errors.map((e) => signedTenth(e.arcminutes)).join(' ')})/${n}`} = ${formatIndexError(value)}`,
    inputs: errors.map((e, i) => stepInput(`reading ${i + 1}`, 'IE', e, e.text ?? '', 'reading')),
    result: value,
    written: formatIndexError(value),
    errors: [{ cause: 'index', sigmaArcmin: CONTACT_ARCMIN / Math.sqrt(n) }],
    source: 'common practice, no source; one contact to 0.2′',
    caution: 'Turn the drum the same way to every contact, so that slack in the worm stays out.',
  };
  return new Working('Index check on the horizon', [step]);
}

const signedTenth = (arcmin: number) => `${arcmin < 0 ? '−' : '+'}${tenth(Math.abs(arcmin))}`;

/** Readings of an index check by the Sun’s diameters. */
export interface SunIndexCheck {
  /** Limbs touching, read on the arc: `31.2′`, minutes also without the mark; one or a list. */
  readonly on: OneOrMore<string | Angle>;
  /** The other limbs touching, read off the arc, as an amount off: `33.0′`; one or a list. */
  readonly off: OneOrMore<string | Angle>;
  /** For the almanac's semi-diameter: `2027-05-11 09:30:00 UTC` … */
  readonly time?: string | Instant;
  /** … or the semi-diameter itself, `15.9′`. */
  readonly semidiameter?: string | Angle;
}

/**
 * Index error from the Sun's diameter measured on and off the arc: half the difference. A quarter of the sum is the
 * semi-diameter, which the almanac knows: the check of the check.
 * @returns a working whose value is the index error, on the arc positive; flagged when the semi-diameter is more
 * than 0.3′ from the almanac's. Give it as a sight's `indexError`.
 * @throws EntryError when a reading is missing, negative or over 1°40′
 */
export function indexErrorFromSun(check: SunIndexCheck): Working<Angle> {
  const on = listOf(check.on).map((r) => contact(r, 'on'));
  const off = listOf(check.off).map((r) => contact(r, 'off'));
  if (on.length === 0 || off.length === 0)
    throw new EntryError("The check needs both: on: '31.2′', off: '33.0′'.", '');
  const [a, b] = [mean(on), mean(off)];
  const value = Angle.arcminutes((a - b) / 2);
  const measured = (a + b) / 4;
  const almanac = almanacSd(check);
  const miss = almanac ? measured - almanac.sd.arcminutes : 0;
  const sigma = (CONTACT_ARCMIN / 2) * Math.sqrt(1 / on.length + 1 / off.length);
  const sdStep: Step<Angle> = {
    rule: 'semidiameter-check',
    title: 'Check: the Sun’s semi-diameter',
    kind: 'rest',
    formula: { latex: 'SD = \\tfrac{1}{4}(a + b)', plain: 'SD = (on + off)/4' },
    figures: `(${tenth(a)} + ${tenth(b)})/4 = ${tenth(measured)}${almanac ? `; almanac ${tenth(almanac.sd.arcminutes)}` : ''}`,
    inputs: [
      stepInput('on the arc', 'a', Angle.arcminutes(a), tenth(a), 'reading'),
      stepInput('off the arc', 'b', Angle.arcminutes(b), tenth(b), 'reading'),
      ...(almanac
        ? [
            stepInput(
              'almanac semi-diameter',
              'SD',
              almanac.sd,
              tenth(almanac.sd.arcminutes),
              'table',
            ),
          ]
        : []),
    ],
    result: Angle.arcminutes(measured),
    written: tenth(measured),
    errors: [],
    source: almanac?.source ?? 'no almanac figure given: not checked',
    caution:
      'Both sets of shades in before you look. With the Sun low hold the sextant on its side and measure the horizontal diameter: refraction flattens the upright one.',
  };
  const errorStep: Step<Angle> = {
    rule: 'index-error',
    title: 'Index error from the Sun',
    kind: 'result',
    formula: { latex: 'IE = \\tfrac{1}{2}(a - b)', plain: 'IE = (on − off)/2, on the arc +' },
    figures: `(${tenth(a)} − ${tenth(b)})/2 = ${formatIndexError(value)}`,
    inputs: sdStep.inputs.slice(0, 2),
    result: value,
    written: formatIndexError(value),
    errors: [{ cause: 'index', sigmaArcmin: Math.hypot(sigma, doubt(miss)) }],
    source: 'common practice, no source; one contact to 0.2′',
  };
  return new Working(
    'Index check on the Sun',
    [sdStep, errorStep],
    flagsOf(miss, measured, almanac),
  );
}

/** A miss beyond the limit is itself a measure of what the contacts are worth. */
const doubt = (missArcmin: number) => (Math.abs(missArcmin) > SD_LIMIT_ARCMIN ? missArcmin : 0);

function contact(reading: string | Angle, side: string): number {
  const value = valueOrText(Angle, reading, (text) =>
    angle(typeof text === 'string' && BARE_NUMBER.test(text) ? `${text.trim()}′` : text),
  );
  const arcmin = value.arcminutes;
  if (!(arcmin >= 0 && arcmin <= GREATEST_CONTACT_ARCMIN))
    throw new EntryError(
      `A contact ${side} the arc is an amount between 0′ and 1°40′, such as 32.4′.`,
      value.text ?? shown(value),
    );
  return arcmin;
}

interface AlmanacSd {
  readonly sd: Angle;
  readonly source: string;
}

function almanacSd({ time, semidiameter }: SunIndexCheck): AlmanacSd | undefined {
  if (semidiameter !== undefined) {
    const sd = valueOrText(Angle, semidiameter, angle);
    return { sd, source: 'semi-diameter as given' };
  }
  if (!time) return undefined;
  const sun = apparentPlace(
    'Sun',
    valueOrText(Instant, time, (text) => Instant.utc(text)),
  );
  return { sd: sun.semidiameter, source: `semi-diameter: ${sun.source}` };
}

function flagsOf(miss: number, measured: number, almanac: AlmanacSd | undefined): string[] {
  if (!almanac || Math.abs(miss) <= SD_LIMIT_ARCMIN) return [];
  const flag = `The semi-diameter measured is ${tenth(measured)}, the almanac’s ${tenth(almanac.sd.arcminutes)}: the readings do not agree, so take them again.`;
  // With the drum's own figure entered for the reading off the arc, the sum is wrong by 60′ less twice that reading.
  return Math.abs(miss) > 0.6
    ? [`${flag} Off the arc a drum shows 60′ less the amount: was the amount entered?`]
    : [flag];
}
