import { altitudeKernel } from '../line/altitude-kernel.js';
import { computedAltitude } from '../line/computed-altitude.js';
import { topocentric } from '../line/topocentric.js';
import { refractionKernel } from '../sextant/refraction-kernel.js';
import {
  augmentationKernel,
  earthFigureKernel,
  parallaxSphereKernel,
} from '../sextant/parallax-kernel.js';
import { apparentPlace } from '../sky/apparent-place.js';
import type { BodyName } from '../sky/body-names.js';
import { Angle } from '../units/angle.js';
import { formatCorrection } from '../units/angle-format.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import { Duration, type Pressure, type Temperature } from '../units/scalar.js';
import { Uncertainty, Working } from '../working/working.js';
import { clearedDistance, separation } from './lunar-kernel.js';
import { lunarFlags } from './lunar-flags.js';
import { clockText, methodStep } from './method-step.js';

/** A lunar distance as measured, with what is known of time, place and air (10 °C, 1010 hPa unless told). */
export interface LunarDistance {
  /** The Sun, a planet or a star. */
  readonly body: BodyName;
  /** Measured between the Moon's bright limb and the Sun's near limb or the point, index error taken off. */
  readonly distance: Angle;
  /** Which limb of the Moon touched: `near` is the one toward the other body. */
  readonly moonLimb: 'near' | 'far';
  /** When, by the watch: to be found out better. Within two hours of the truth. */
  readonly watch: Instant;
  /** Where: fixes the altitudes when they were not measured; a longitude found by this time moves with it. */
  readonly position: Position;
  /** Apparent altitudes of the centres (dip taken off, limb corrected), when measured. */
  readonly moonApparent?: Angle;
  readonly bodyApparent?: Angle;
  readonly temperature?: Temperature;
  readonly pressure?: Pressure;
  /** One standard deviation of the distance; 0.3′ unless told. */
  readonly sigma?: Angle;
}

/** Time by a lunar distance. */
export class LunarTime {
  constructor(
    readonly instant: Instant,
    /** Watch less true time: fast positive. */
    readonly watchError: Duration,
    /** One standard deviation of the time. */
    readonly sigma: Duration,
    /** Distance as from the Earth's centre. */
    readonly cleared: Angle,
    /** Change of the distance, minutes of arc an hour. */
    readonly rateArcminPerHour: number,
  ) {
    Object.freeze(this);
  }
  /** What that time leaves uncertain in a longitude: 15″ a second. */
  get longitudeSigma(): Angle {
    return Angle.arcseconds(15 * this.sigma.seconds);
  }
  /** The time found with one standard deviation: `… UTC ± 33 s, 1σ`. */
  toString(): string {
    return `${this.instant.toSecond()} ± ${this.sigma.seconds.toFixed(0)} s, 1σ`;
  }
}

/** Practised distances scatter by a quarter to a half minute: common practice, no source. */
const DISTANCE_SIGMA = Angle.arcminutes(0.3);
const SEARCH_HOURS = 6;

/**
 * Clears a lunar distance (`clearedDistance`) and finds the time at which the Moon stood so far from the body. The uncertainty
 * in the working is that of the distance in minutes of arc; that of the time is in the value, in seconds.
 * @throws OutOfRangeError when the body is the Moon, no time within six hours of the watch fits, or a body is below the horizon
 */
export function lunarDistance(given: LunarDistance): Working<LunarTime> {
  if (given.body === 'Moon')
    throw new OutOfRangeError('the distance is from the Moon to another body; give that body');
  const sigma = given.sigma ?? DISTANCE_SIGMA;
  let time = given.watch;
  let stages = clear(given, time);
  // Altitudes and semi-diameters depend on the time: a few rounds settle it.
  for (let i = 0; i < 30; i++) {
    const next = timeOf(given.body, stages.clearedDeg, time, given);
    const step = Math.abs(next.minus(time).seconds);
    time = next;
    stages = clear(given, time);
    if (step < 0.05) break;
  }
  time = timeOf(given.body, stages.clearedDeg, time, given);
  const rate = rateArcminPerHour(given.body, time);
  const lowestDeg = Math.min(stages.moonTrueDeg, stages.bodyTrueDeg);
  const seenRate = lowestDeg > LEAST_STEP_DEG ? clearedAgainstComputed(given, time) : rate;
  const secondsOf = (arcmin: number) => (arcmin / Math.max(Math.abs(seenRate), 1e-6)) * 3600;
  const seconds = secondsOf(sigma.arcminutes);
  const value = new LunarTime(
    time,
    given.watch.minus(time),
    Duration.seconds(seconds),
    Angle.degrees(stages.clearedDeg),
    rate,
  );
  return new Working<LunarTime>(
    `Lunar distance: Moon and ${given.body}`,
    [
      methodStep({
        rule: 'measured',
        title: 'Distance of the limbs',
        kind: 'entry',
        plain: 'as measured, index error taken off',
        figures: given.distance.toString(),
        result: given.distance,
        errors: [{ cause: 'distance', sigmaArcmin: sigma.arcminutes }],
      }),
      methodStep<Angle>({
        rule: 'centres',
        title: 'Apparent distance of the centres',
        kind: 'correction',
        plain:
          given.moonLimb === 'near'
            ? '+ augmented SD of the Moon + SD of the Sun'
            : '− augmented SD of the Moon + SD of the Sun',
        figures: `Moon ${stages.moonSdArcmin.toFixed(2)}′, ${given.body} ${stages.bodySdArcmin.toFixed(2)}′`,
        correction: Angle.degrees(stages.apparentDeg).minus(given.distance),
        result: Angle.degrees(stages.apparentDeg),
        source:
          'semi-diameters shortened by refraction along the arc (difference of refraction across the disc)',
      }),
      methodStep({
        rule: 'altitudes',
        title: 'Altitudes, apparent and true',
        plain: 'true = apparent − refraction + parallax',
        figures: `Moon ${Angle.degrees(stages.moonApparentDeg).toString()} → ${Angle.degrees(stages.moonTrueDeg).toString()}; ${given.body} ${Angle.degrees(stages.bodyApparentDeg).toString()} → ${Angle.degrees(stages.bodyTrueDeg).toString()}`,
        result: Angle.degrees(stages.moonTrueDeg),
        source:
          given.moonApparent && given.bodyApparent
            ? 'altitudes as measured'
            : 'altitudes computed for the position and time',
      }),
      methodStep<Angle>({
        rule: 'cleared',
        title: 'Cleared distance',
        kind: 'correction',
        plain:
          'cos Z = (cos d − sin m sin s)/(cos m cos s); cos D = sin M sin S + cos M cos S cos Z',
        latex:
          '\\cos D=\\sin M\\sin S+\\cos M\\cos S\\,\\frac{\\cos d-\\sin m\\sin s}{\\cos m\\cos s}',
        figures: `${formatCorrection((stages.clearedDeg - stages.apparentDeg) * 60, 2)}`,
        correction: Angle.degrees(stages.clearedDeg - stages.apparentDeg),
        result: Angle.degrees(stages.clearedDeg),
        source: 'rigorous spherical method (Borda’s triangles)',
      }),
      methodStep({
        rule: 'time',
        title: 'Time when the Moon stood there',
        plain: 'the UT at which the computed distance equals the cleared one',
        figures: `distance changes ${formatCorrection(rate)} an hour; watch ${value.watchError.seconds >= 0 ? 'fast' : 'slow'} ${Duration.seconds(Math.abs(value.watchError.seconds)).toString()}`,
        result: value,
        written: `${clockText(value.instant)} ± ${value.sigma.seconds.toFixed(0)} s, 1σ`,
        source: apparentPlace('Moon', time).source,
        caution: `A tenth of a minute of arc is some ${secondsOf(0.1).toFixed(0)} s of time and ${(secondsOf(0.1) / 4).toFixed(0)}′ of longitude here: average several distances.`,
      }),
    ],
    lunarFlags({
      rateArcminPerHour: rate,
      seenRateArcminPerHour: seenRate,
      watchFastS: value.watchError.seconds,
      lowestDeg,
    }),
    new Uncertainty([{ cause: 'distance', sigmaArcmin: sigma.arcminutes }]),
  );
}

function clear(given: LunarDistance, time: Instant) {
  const moon = apparentPlace('Moon', time);
  const body = apparentPlace(given.body, time);
  const air = [given.temperature?.celsius ?? 10, given.pressure?.hectopascals ?? 1010] as const;
  const refraction = (alt: number) => refractionKernel(alt, ...air, 'formula') / 60;
  const one = (place: typeof moon, measured: Angle | undefined, isMoon: boolean) => {
    const { altitude, azimuth } = computedAltitude(given.position, place.gha, place.declination);
    const hp = place.horizontalParallax.arcminutes;
    const down = (altDeg: number) =>
      (parallaxSphereKernel(altDeg, hp) +
        (isMoon ? earthFigureKernel(altDeg, hp, given.position.latDeg, azimuth.degrees) : 0)) /
      60;
    if (measured) {
      const topocentric = measured.degrees - refraction(measured.degrees);
      return { apparent: measured.degrees, trueAlt: topocentric + down(topocentric) };
    }
    let topocentric = altitude.degrees;
    for (let i = 0; i < 5; i++) topocentric = altitude.degrees - down(topocentric);
    if (topocentric < 0)
      throw new OutOfRangeError(
        `${isMoon ? 'the Moon' : given.body} is below the horizon at ${time.toString()} in ${given.position.toString()}: check time and position`,
      );
    let apparent = topocentric;
    for (let i = 0; i < 8; i++) apparent = topocentric + refraction(apparent);
    return { apparent, trueAlt: altitude.degrees };
  };
  const m = one(moon, given.moonApparent, true);
  const s = one(body, given.bodyApparent, false);
  const geocentric = moon.semidiameter.arcminutes;
  const moonSd =
    geocentric + augmentationKernel(m.apparent, geocentric, moon.horizontalParallax.arcminutes);
  const bodySd = given.body === 'Sun' ? body.semidiameter.arcminutes : 0;
  // Refraction shortens a disc along the vertical by its change across the disc; along the arc by the squared cosine.
  const squeeze = (alt: number, other: number, sd: number, d: number) => {
    const vertical = refraction(alt - sd / 60) - refraction(alt + sd / 60);
    const cosAngle =
      (Math.sin((other * Math.PI) / 180) -
        Math.sin((alt * Math.PI) / 180) * Math.cos((d * Math.PI) / 180)) /
      (Math.cos((alt * Math.PI) / 180) * Math.sin((d * Math.PI) / 180));
    return sd - (vertical * 60 * Math.min(1, cosAngle * cosAngle)) / 2;
  };
  const d = given.distance.degrees;
  const moonSdArcmin = squeeze(m.apparent, s.apparent, moonSd, d);
  const bodySdArcmin = bodySd === 0 ? 0 : squeeze(s.apparent, m.apparent, bodySd, d);
  const apparentDeg =
    d + ((given.moonLimb === 'near' ? moonSdArcmin : -moonSdArcmin) + bodySdArcmin) / 60;
  return {
    moonSdArcmin,
    bodySdArcmin,
    apparentDeg,
    moonApparentDeg: m.apparent,
    bodyApparentDeg: s.apparent,
    moonTrueDeg: m.trueAlt,
    bodyTrueDeg: s.trueAlt,
    clearedDeg: clearedDistance(
      apparentDeg,
      m.apparent,
      s.apparent,
      m.trueAlt,
      s.trueAlt,
      azimuthChange(given, time),
    ),
  };
}

/** Angle between the azimuths, geocentric less topocentric, degrees: the part of parallax that altitudes do not show. */
function azimuthChange({ body, position }: LunarDistance, time: Instant): number {
  const { latDeg, lonDeg } = position;
  const between = (a: number, b: number) => Math.abs(Angle.degrees(a - b).signed().degrees);
  const [m, s] = (['Moon', body] as const).map((name) => {
    const { gha, declination } = apparentPlace(name, time);
    return {
      geocentric: altitudeKernel(latDeg, lonDeg, gha.degrees, declination.degrees).azDeg,
      seen: topocentric(name, latDeg, lonDeg, time.tt, time.ut1).azDeg,
    };
  }) as [{ geocentric: number; seen: number }, { geocentric: number; seen: number }];
  return between(m.geocentric, s.geocentric) - between(m.seen, s.seen);
}

/** Step for a rate by difference, hours; a body that would set in it has none. */
const [STEP_HOURS, LEAST_STEP_DEG] = [0.05, 1];

/** Minutes of arc of the measured distance to an hour of the time found: clearing moves with the altitudes, and with the distance. */
function clearedAgainstComputed(given: LunarDistance, time: Instant): number {
  const cleared = (at: Instant, more = 0) =>
    clear({ ...given, distance: given.distance.plus(Angle.arcminutes(more)) }, at).clearedDeg * 60;
  const ahead = (hours: number) => {
    const at = time.plus(Duration.hours(hours));
    return moonDistance(given.body, at).arcminutes - cleared(at);
  };
  const gain = (ahead(STEP_HOURS) - ahead(-STEP_HOURS)) / (2 * STEP_HOURS);
  return gain / (cleared(time, 0.5) - cleared(time, -0.5));
}

/** Geocentric distance of the centres of the Moon and a body, 0° to 180°. @throws EntryError as `apparentPlace` does */
export function moonDistance(body: BodyName, at: Instant): Angle {
  const [m, s] = [apparentPlace('Moon', at), apparentPlace(body, at)];
  return Angle.degrees(
    separation(m.gha.degrees, m.declination.degrees, s.gha.degrees, s.declination.degrees),
  );
}

const rateArcminPerHour = (body: BodyName, at: Instant): number =>
  moonDistance(body, at.plus(Duration.minutes(30))).minus(
    moonDistance(body, at.plus(Duration.minutes(-30))),
  ).arcminutes;

function timeOf(body: BodyName, clearedDeg: number, near: Instant, given: LunarDistance): Instant {
  let t = near;
  for (let i = 0; i < 12; i++) {
    const miss = clearedDeg * 60 - moonDistance(body, t).arcminutes;
    const rate = rateArcminPerHour(body, t);
    const hours = Math.max(
      -2,
      Math.min(2, miss / (Math.abs(rate) < 1 ? Math.sign(rate || 1) : rate)),
    );
    t = t.plus(Duration.hours(hours));
    if (Math.abs(t.minus(given.watch).hours) > SEARCH_HOURS)
      throw new OutOfRangeError(
        `no time within ${SEARCH_HOURS} hours of ${given.watch.toString()} gives that distance from ${body}: check the distance, the limb (near or far) and the body`,
      );
    if (Math.abs(hours) < 2e-6) break;
  }
  return t;
}
