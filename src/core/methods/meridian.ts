import {
  observationOf,
  label,
  type AltitudeObservation,
  type Observed,
} from '../line/observation.js';
import { altitudeKernel } from '../line/altitude-kernel.js';
import { localHourAngle } from '../line/computed-altitude.js';
import { cosDeg, sinDeg } from '../line/trig.js';
import { Angle } from '../units/angle.js';
import { formatCorrection, formatLatitude } from '../units/angle-format.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Position } from '../units/position.js';
import { Duration, type Speed } from '../units/scalar.js';
import { Uncertainty, Working, type Step } from '../working/working.js';
import { declinationRateArcminPerMinute } from './body-motion.js';
import { BOWDITCH, declinationText, figure, methodStep } from './method-step.js';

/**
 * The factor a by which the altitude falls near the meridian, a t² with t in minutes of time; minutes of arc. Infinite for a body in the
 * zenith. Source: Bowditch, tables 24 and 25.
 * @param latDeg north positive
 * @param decDeg north positive
 */
export function altitudeFactor(latDeg: number, decDeg: number): number {
  // (15.041′/min)² in radians: Lat and Dec with their signs; Bowditch prints it as 1.9635″ cos L cos d / sin(L − d).
  return (1.9635 / 60) * ((cosDeg(latDeg) * cosDeg(decDeg)) / Math.abs(sinDeg(latDeg - decDeg)));
}

/** When and by how much the greatest altitude of a moving observer differs from that on the meridian. */
export interface MeridianMaximum {
  /** From meridian passage to the greatest altitude; negative before. */
  readonly interval: Duration;
  /** Greatest altitude less meridian altitude, never negative. */
  readonly excess: Angle;
}

/**
 * The greatest altitude near upper transit is not the meridian altitude when the declination changes or the vessel makes
 * northing: h(t) = h₀ + bt − at², b the steady change of altitude by both, so t = b/2a and the excess is b²/4a. Source: factor a as in
 * `altitudeFactor`; the rest follows.
 * @param decRate change of declination, minutes of arc a minute of time, north positive
 * @param northSpeed speed made good northward, knots
 * @throws OutOfRangeError when the body passes within 1° of the zenith, where the parabola does not hold
 */
export function meridianMaximum(
  latDeg: number,
  decDeg: number,
  decRate: number,
  northSpeed: number,
): MeridianMaximum {
  if (Math.abs(latDeg - decDeg) < 1)
    throw new OutOfRangeError(
      'the body passes within 1° of the zenith: use the circles themselves, fix(), instead of a meridian altitude',
    );
  const a = altitudeFactor(latDeg, decDeg);
  // Sailing north raises a body in the north; a growing declination takes it away from the zenith.
  const north = decDeg > latDeg ? 1 : -1;
  const b = north * (northSpeed / 60 - decRate);
  return {
    interval: Duration.minutes(b / (2 * a)),
    excess: Angle.arcminutes((b * b) / (4 * a)),
  };
}

/** What a meridian altitude may be told. */
export interface MeridianOptions {
  /** DR: decides on which side of the zenith the body is; the sight's own unless told. */
  readonly dr?: Position;
  /** `upper` unless told. */
  readonly transit?: 'upper' | 'lower';
  /** `maximum`: the altitude is the greatest (at lower transit least) seen, not that at the moment of transit. */
  readonly taken?: 'transit' | 'maximum';
  /** True course; the sight’s own unless told. */
  readonly course?: Angle;
  /** See `course`. */
  readonly speed?: Speed;
}

/**
 * Latitude from a meridian altitude. Upper transit: Lat = Dec ± zenith distance; lower transit: Lat = ±(Ho + polar
 * distance). The value is the latitude, north positive; its uncertainty that of the altitude. Source: Bowditch, meridian altitudes (from memory).
 * @throws OutOfRangeError without a DR; flags an altitude over 0.2′ from that at transit, by the DR's longitude; one told to be the
 * greatest when it is also over 6 minutes from transit
 */
export function meridianAltitude(sight: Observed, options: MeridianOptions = {}): Working<Angle> {
  const o = observationOf(sight);
  const dr = options.dr ?? o.dr;
  if (!dr)
    throw new OutOfRangeError(
      'a meridian altitude needs a DR to tell whether the body is north or south: { dr }',
    );
  const lower = options.transit === 'lower';
  const steps: Step[] = [...(o.working?.steps ?? [startStep(o)]), declinationStep(o)];
  const maximum = options.taken === 'maximum' ? maximumStep(o, dr, options, lower) : undefined;
  if (maximum) steps.push(maximum);
  const ho = maximum?.result ?? o.observed;
  const result = lower ? lowerStep(o, ho, dr) : upperStep(o, ho, dr);
  return new Working<Angle>(
    `Latitude by meridian altitude: ${label(o)}, ${lower ? 'lower' : 'upper'} transit`,
    [...steps, result],
    offMeridian(o, dr, lower, maximum !== undefined),
    new Uncertainty(o.causes),
  );
}

/** Less than this the altitude may differ from that at transit without a word: twice the least that a drum or vernier shows. */
const OFF_MERIDIAN_ARCMIN = 0.2;
/**
 * A greatest altitude is timed loosely, and the DR's longitude may be out: 6 minutes of time. Farther off it is not the greatest
 * (common practice, no source).
 */
const OFF_MERIDIAN_DEG = 1.5;
/** To here the working by `exMeridian` says nothing against itself; lower transits it does not know. */
const EX_MERIDIAN_DEG = 6.5;

/** What to say of a sight that was not taken at transit, by the DR's longitude. */
function offMeridian(
  o: AltitudeObservation,
  dr: Position,
  lower: boolean,
  maximum: boolean,
): string[] {
  const lha = localHourAngle(dr, o.gha)
    .minus(Angle.degrees(lower ? 180 : 0))
    .signed().degrees;
  const [latDeg, decDeg] = [dr.latDeg, o.declination.degrees];
  const { altDeg } = altitudeKernel(latDeg, dr.lonDeg, o.gha.degrees, decDeg);
  const transitDeg = lower ? Math.abs(latDeg + decDeg) - 90 : 90 - Math.abs(latDeg - decDeg);
  const off = Angle.degrees(Math.abs(transitDeg - altDeg));
  if (off.arcminutes <= OFF_MERIDIAN_ARCMIN || (maximum && Math.abs(lha) <= OFF_MERIDIAN_DEG))
    return [];
  const minutes = Math.abs(lha) * 4;
  const time = `${minutes.toFixed(minutes < 10 ? 1 : 0)} minutes of time ${lha > 0 ? 'past' : 'before'} the meridian`;
  const use =
    lower || Math.abs(lha) > EX_MERIDIAN_DEG
      ? 'work it as a position line'
      : 'work it with exMeridian()';
  const greatest = `if it is the ${lower ? 'least' : 'greatest'} altitude seen, say { taken: 'maximum' }`;
  return [
    `Not at transit: ${label(o)} is ${time} by the DR, where it stands ${off.arcminutes < 60 ? `${off.arcminutes.toFixed(1)}′` : off.toString()} ${lower ? 'above' : 'below'} its altitude on it; the latitude is out by that${maximum ? ' if time and DR are right' : ''}. Instead ${use}${maximum ? '' : `; ${greatest}`}.`,
  ];
}

function startStep(o: AltitudeObservation): Step<Angle> {
  return methodStep({
    rule: 'observed altitude',
    title: 'Observed altitude',
    kind: 'entry',
    plain: 'Ho',
    figures: o.observed.toString(),
    result: o.observed,
    errors: o.causes,
    source: 'as given',
  });
}

/** The step that takes the declination from the observation’s place. */
export function declinationStep(o: AltitudeObservation): Step<Angle> {
  return methodStep({
    rule: 'declination',
    title: 'Declination',
    kind: 'entry',
    plain: 'Dec',
    latex: '\\delta',
    figures: `${o.body} at ${o.instant.toSecond()}: ${declinationText(o.declination)}`,
    result: o.declination,
    written: declinationText(o.declination),
    source: o.placeSource ?? 'as given',
  });
}

/** The entry of any method: the working that led to Ho, or Ho as given. */
export const altitudeSteps = (o: AltitudeObservation): readonly Step[] =>
  o.working?.steps ?? [startStep(o)];

function maximumStep(
  o: AltitudeObservation,
  dr: Position,
  options: MeridianOptions,
  lower: boolean,
): Step<Angle> {
  const course = options.course ?? o.course;
  const speed = options.speed ?? o.speed;
  const northing = course && speed ? speed.knots * Math.cos(course.radians) : 0;
  const rate = declinationRateArcminPerMinute(o);
  const m = lower
    ? lowerMinimum(dr.latDeg, o.declination.degrees, rate, northing)
    : meridianMaximum(dr.latDeg, o.declination.degrees, rate, northing);
  const correction = lower ? m.excess : m.excess.negated();
  return methodStep<Angle>({
    rule: 'moving vessel',
    title: lower
      ? 'From the least altitude to the meridian'
      : 'From the greatest altitude to the meridian',
    kind: 'correction',
    plain: 'b²/4a, b the change of altitude by northing and declination, a the altitude factor',
    latex: 'b^2/4a',
    figures: `northing ${northing.toFixed(1)} kn, Dec ${formatCorrection(rate * 60)} an hour; ${m.interval.toString()} from transit`,
    correction,
    result: o.observed.plus(correction),
    source: 'parabola of the altitude near the meridian; factor a from Bowditch tables 24 and 25',
    ...(course && speed
      ? {}
      : { caution: 'No course and speed are given: the vessel is taken to lie still.' }),
  });
}

function lowerMinimum(
  latDeg: number,
  decDeg: number,
  rate: number,
  northing: number,
): MeridianMaximum {
  const a = (1.9635 / 60) * ((cosDeg(latDeg) * cosDeg(decDeg)) / Math.abs(sinDeg(latDeg + decDeg)));
  // Under the pole the body lies poleward and below it: it falls as its declination grows towards that pole.
  const pole = latDeg >= 0 ? 1 : -1;
  const b = pole * (northing / 60 - rate);
  return { interval: Duration.minutes(-b / (2 * a)), excess: Angle.arcminutes((b * b) / (4 * a)) };
}

function upperStep(o: AltitudeObservation, ho: Angle, dr: Position): Step<Angle> {
  const zenith = Angle.degrees(90).minus(ho);
  const [south, north] = [o.declination.plus(zenith), o.declination.minus(zenith)];
  const latitude = nearer(south, north, dr);
  const isSouth = latitude === south;
  return methodStep({
    rule: 'latitude',
    title: 'Latitude',
    plain: isSouth
      ? 'Lat = Dec + (90° − Ho), body to the south'
      : 'Lat = Dec − (90° − Ho), body to the north',
    latex: isSouth ? '\\varphi = \\delta + (90° - H_o)' : '\\varphi = \\delta - (90° - H_o)',
    figures: `${declinationText(o.declination)}, zenith distance ${zenith.toString()}: ${formatLatitude(latitude.degrees)}`,
    inputs: [figure('observed altitude', 'Ho', ho, ho.toString(), 'earlier step')],
    result: inRange(latitude),
    written: formatLatitude(latitude.degrees),
    source: BOWDITCH,
  });
}

function lowerStep(o: AltitudeObservation, ho: Angle, dr: Position): Step<Angle> {
  const sign = dr.latDeg >= 0 ? 1 : -1;
  const polar = Angle.degrees(90 - sign * o.declination.degrees);
  const latitude = ho.plus(polar).times(sign);
  return methodStep({
    rule: 'latitude',
    title: 'Latitude',
    plain: 'Lat = Ho + polar distance, named for the elevated pole',
    latex: '\\varphi = H_o + p',
    figures: `${ho.toString()} + ${polar.toString()}: ${formatLatitude(latitude.degrees)}`,
    result: inRange(latitude),
    written: formatLatitude(latitude.degrees),
    source: BOWDITCH,
  });
}

function nearer(a: Angle, b: Angle, dr: Position): Angle {
  return Math.abs(a.degrees - dr.latDeg) <= Math.abs(b.degrees - dr.latDeg) ? a : b;
}

function inRange(latitude: Angle): Angle {
  if (Math.abs(latitude.degrees) > 90)
    throw new OutOfRangeError(
      `the latitude comes out as ${latitude.toString()}: check the declination’s name and which transit it was`,
    );
  return latitude;
}
