import { computedAltitude } from '../line/computed-altitude.js';
import { acosDeg, asinDeg, cosDeg, sinDeg } from '../line/trig.js';
import { dipKernel } from '../sextant/dip-kernel.js';
import { apparentPlace } from '../sky/apparent-place.js';
import type { BodyName } from '../sky/body-names.js';
import { Angle } from '../units/angle.js';
import { formatBearing, formatCorrection } from '../units/angle-format.js';
import { bearing as readBearing } from '../units/bearing-text.js';
import { angle } from '../units/angle-text.js';
import { EntryError, OutOfRangeError } from '../units/errors.js';
import { Instant } from '../units/instant.js';
import { position, Position } from '../units/position.js';
import { length } from '../units/quantity-text.js';
import { Length } from '../units/scalar.js';
import { valueOrText } from '../units/value-or-text.js';
import { Uncertainty, Working, type Step } from '../working/working.js';
import { BOWDITCH, declinationText, methodStep } from './method-step.js';

/** A bearing of a body taken with the compass. */
export interface CompassCheck {
  /** What the bearing was taken of. */
  readonly body: BodyName;
  /** When it was taken; also as text, `2027-05-12 15:05:44 UTC`. */
  readonly time?: Instant | string;
  /** The same under another name. */
  readonly instant?: Instant | string;
  /** Also as text, `18°10′ S, 002°53′ W`. */
  readonly position: Position | string;
  /** What the compass shows, 0–360° as a number of degrees in text, `096.5`, or an Angle. */
  readonly compassBearing: Angle | string;
  /** Magnetic variation, east positive, from the chart or `magneticVariation(position, time).value`: splits the error into variation and deviation. As text with its side, `15° W`. */
  readonly variation?: Angle | string;
  /** One standard deviation of the bearing; 0.5° unless told. */
  readonly sigma?: Angle;
}

/** A check with its texts read. */
interface ReadCheck extends CompassCheck {
  readonly instant: Instant;
  readonly position: Position;
  readonly variation?: Angle;
}

function readCheck<C extends CompassCheck>(check: C): C & ReadCheck {
  const { time, instant = time, position: place, variation } = check;
  if (instant === undefined)
    throw new EntryError("When was it taken? Write time: '2027-05-12 15:05:44 UTC'.", '');
  return {
    ...check,
    instant: valueOrText(Instant, instant, (text) => Instant.utc(text)),
    position: valueOrText(Position, place, position),
    ...(variation === undefined ? {} : { variation: variationOf(variation) }),
  };
}

/** `15° W`, `3.2 E`. @throws EntryError without its side, which no sign may stand for */
function variationOf(given: Angle | string): Angle {
  if (typeof given !== 'string') return given;
  if (!/[EW]/i.test(given))
    throw new EntryError('Which way? The variation wants E or W. Write 15° W or 3.2° E.', given, 0);
  return angle(given, { kind: 'longitude' });
}

/** A bearing over a steering compass in a seaway: common practice, no source. */
const BEARING_SIGMA = Angle.degrees(0.5);

/**
 * `1.2° E`: an angle of the compass with its side, to the tenth of a degree.
 * @param a east positive
 */
export const eastWest = (a: Angle): string =>
  `${Math.abs(a.degrees).toFixed(1)}° ${a.degrees < 0 ? 'W' : 'E'}`;

/**
 * Compass error by the azimuth of a body. The value is the error, east positive: true = compass + error; uncertainty in degrees, 1σ.
 * Source: computed azimuth, see `computedAltitude`.
 * @throws EntryError for a bearing, time, place or variation that cannot be read
 */
export function compassByAzimuth(given: CompassCheck): Working<Angle> {
  const check = readCheck(given);
  const place = apparentPlace(check.body, check.instant);
  const { altitude, azimuth } = computedAltitude(check.position, place.gha, place.declination);
  const steps: Step[] = [
    methodStep({
      rule: 'true azimuth',
      title: 'True azimuth',
      plain: 'Zn for the time and position',
      figures: `${check.body}, altitude ${altitude.toString()}: ${formatBearing(azimuth.degrees, 1)}`,
      result: azimuth,
      written: formatBearing(azimuth.degrees, 1),
      source: place.source,
      caution:
        altitude.degrees > 60
          ? 'High bodies swing quickly in azimuth and are hard to bring to the card: below 30° is better.'
          : undefined,
    }),
  ];
  // Azimuth moves with time and place, most when high: an uncertain mile counts tan(h) minutes.
  const placeSigma = Math.abs(Math.tan(altitude.radians));
  return finish(check, `Compass error by azimuth: ${check.body}`, steps, azimuth, placeSigma);
}

/**
 * True amplitude in degrees: sin A = sin Dec / cos Lat; from east or west, north positive. Null where the body does not rise or set.
 * Source: NAVEDTRA 14220; Bowditch.
 * @param latDeg north positive
 * @param decDeg north positive
 */
export function amplitude(latDeg: number, decDeg: number): number | null {
  const x = sinDeg(decDeg) / cosDeg(latDeg);
  return Math.abs(x) <= 1 ? asinDeg(x) : null;
}

/** A bearing of a body on the horizon. */
export interface AmplitudeCheck extends CompassCheck {
  /**
   * `celestial`: the centre on the celestial horizon (the Sun's lower limb about two thirds of a diameter above the sea
   * horizon). `visible`: the Sun's centre, or the point, on the sea horizon itself.
   */
  readonly horizon: 'celestial' | 'visible';
  /** For the dip, with the visible horizon; also as text, `2.6 m`; 2 m unless told. */
  readonly eyeHeight?: Length | string;
}

const HORIZONS: readonly AmplitudeCheck['horizon'][] = ['celestial', 'visible'];

/** Refraction on the horizon, 34′: USNO convention of rise and set. */
const HORIZON_REFRACTION_ARCMIN = 34;

/**
 * Compass error by amplitude, of a body rising or setting at the time given. The value is the error, east positive; uncertainty in
 * degrees, 1σ. Source: NAVEDTRA 14220; Bowditch.
 * @throws OutOfRangeError where the body neither rises nor sets; EntryError for a bearing, time, place or variation that cannot be read
 */
export function compassByAmplitude(given: AmplitudeCheck): Working<Angle> {
  const check = readCheck(given);
  if (!HORIZONS.includes(check.horizon))
    throw new EntryError(
      "On which horizon did it stand? Write horizon: 'visible' with the centre on the sea horizon, 'celestial' with the Sun's lower limb two thirds of a diameter above it.",
      String(check.horizon ?? ''),
    );
  const place = apparentPlace(check.body, check.instant);
  const decDeg = place.declination.degrees;
  const latDeg = check.position.latDeg;
  const observed = computedAltitude(check.position, place.gha, place.declination);
  const rising = observed.azimuth.degrees < 180;
  const a = amplitude(latDeg, decDeg);
  if (a === null)
    throw new OutOfRangeError(
      `${check.body} neither rises nor sets in latitude ${check.position.latitude.toString()}: take an azimuth instead`,
    );
  const celestial = rising ? 90 - a : 270 + a;
  const steps: Step[] = [
    methodStep({
      rule: 'amplitude',
      title: 'Amplitude',
      plain: 'sin A = sin Dec / cos Lat',
      latex: '\\sin A=\\sin\\delta/\\cos\\varphi',
      figures: `Dec ${declinationText(place.declination)}: ${rising ? 'E' : 'W'} ${Math.abs(a).toFixed(1)}° ${a < 0 ? 'S' : 'N'}`,
      result: Angle.degrees(a),
      written: `${rising ? 'E' : 'W'} ${Math.abs(a).toFixed(1)}° ${a < 0 ? 'S' : 'N'}`,
      source: 'NAVEDTRA 14220; Bowditch',
    }),
    methodStep({
      rule: 'celestial horizon',
      title: 'True bearing on the celestial horizon',
      plain: rising ? 'Zn = 90° − A' : 'Zn = 270° + A',
      figures: formatBearing(celestial, 1),
      result: Angle.degrees(celestial).normalized(),
      written: formatBearing(celestial, 1),
    }),
  ];
  let zn = celestial;
  if (check.horizon === 'visible') {
    const { eyeHeight: eye } = check;
    const dip = dipKernel(valueOrText(Length, eye ?? '2 m', length).metres);
    const hp = place.horizontalParallax.arcminutes;
    const altDeg = (hp - HORIZON_REFRACTION_ARCMIN - dip) / 60;
    const cosZ =
      (sinDeg(decDeg) - sinDeg(latDeg) * sinDeg(altDeg)) / (cosDeg(latDeg) * cosDeg(altDeg));
    if (Math.abs(cosZ) > 1)
      throw new OutOfRangeError(
        `${check.body} does not reach the sea horizon there: take an azimuth instead`,
      );
    zn = rising ? acosDeg(cosZ) : 360 - acosDeg(cosZ);
    steps.push(
      methodStep({
        rule: 'visible horizon',
        title: 'True bearing on the visible horizon',
        plain:
          'cos Zn = (sin Dec − sin Lat sin h)/(cos Lat cos h), h = parallax − refraction − dip',
        figures: `h = ${formatCorrection(altDeg * 60)}: ${formatBearing(zn, 1)}`,
        result: Angle.degrees(zn).normalized(),
        written: formatBearing(zn, 1),
        source: BOWDITCH,
      }),
    );
  }
  const working = finish(
    check,
    `Compass error by amplitude: ${check.body}, ${rising ? 'rising' : 'setting'}`,
    steps,
    Angle.degrees(zn),
    0,
  );
  if (Math.abs(observed.altitude.degrees) < 3) return working;
  return new Working<Angle>(
    working.title,
    working.steps as unknown as [...Step[], Step<Angle>],
    [
      `By the time and position ${check.body} stands at ${observed.altitude.toString()}, not on the horizon: check them, or work it as an azimuth.`,
    ],
    working.uncertainty,
  );
}

function finish(
  check: ReadCheck,
  title: string,
  steps: readonly Step[],
  trueBearing: Angle,
  placeSigmaArcmin: number,
): Working<Angle> {
  const shown = valueOrText(Angle, check.compassBearing, compassText);
  const error = trueBearing.minus(shown).signed();
  const all: Step[] = [
    ...steps,
    methodStep({
      rule: 'compass bearing',
      title: 'Compass bearing',
      kind: 'entry',
      plain: 'as read',
      figures: formatBearing(shown.degrees, 1),
      result: shown,
      written: formatBearing(shown.degrees, 1),
    }),
  ];
  if (check.variation) {
    const deviation = error.minus(check.variation).signed();
    all.push(
      methodStep({
        rule: 'deviation',
        title: 'Deviation',
        plain: 'deviation = error − variation',
        figures: `${eastWest(error)} less variation ${eastWest(check.variation)}: ${eastWest(deviation)}`,
        result: deviation,
        written: eastWest(deviation),
      }),
    );
  }
  const last = methodStep({
    rule: 'compass error',
    title: 'Compass error',
    plain: 'error = true − compass; compass least, error east',
    figures: `${formatBearing(trueBearing.degrees, 1)} − ${formatBearing(shown.degrees, 1)}: ${eastWest(error)}`,
    result: error,
    written: eastWest(error),
  });
  return new Working<Angle>(
    title,
    [...all, last],
    [],
    new Uncertainty(
      [
        { cause: 'bearing', sigmaArcmin: (check.sigma ?? BEARING_SIGMA).arcminutes },
        { cause: 'position', sigmaArcmin: placeSigmaArcmin },
      ].filter((c) => c.sigmaArcmin !== 0),
      '°',
    ),
  );
}

/** A compass bearing is a bearing whose letters C or M are allowed here. */
const compassText = (text: string): Angle =>
  readBearing(typeof text === 'string' ? text.replace(/\s*(?:C|M|compass|mag\w*)\s*$/i, '') : text);
