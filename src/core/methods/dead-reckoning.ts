import { rhumbBetween, rhumbDestination } from '../line/rhumb.js';
import { Angle } from '../units/angle.js';
import { formatBearing } from '../units/angle-format.js';
import { bearing } from '../units/bearing-text.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Position } from '../units/position.js';
import { length, speed, type LengthText, type SpeedText } from '../units/quantity-text.js';
import { Length, Speed, type Duration } from '../units/scalar.js';
import { valueOrText } from '../units/value-or-text.js';
import { Uncertainty, Working, type Step } from '../working/working.js';
import { methodStep } from './method-step.js';

/** Where a current (with leeway and bad steering) took the vessel, from DR to fix. */
export class SetAndDrift {
  constructor(
    /** Direction it sets to, true. */
    readonly set: Angle,
    readonly drift: Speed,
    readonly distance: Length,
  ) {
    Object.freeze(this);
  }
  /** In one line, as it is written in the log. */
  toString(): string {
    return `set ${formatBearing(this.set.degrees)}, drift ${this.drift.knots.toFixed(1)} kn (${this.distance.nauticalMiles.toFixed(1)} nm)`;
  }
}

/**
 * Set and drift from a DR position to a fix after some hours, along the rhumb line on WGS 84: set true, drift in knots. The uncertainty is that
 * of the fix's distance from the DR, in miles as minutes of arc.
 * @param fixSigma one standard deviation of the fix in any direction, 1 nm unless told
 * @throws OutOfRangeError when no time has passed, or at a pole
 */
export function setAndDrift(
  dr: Position,
  fix: Position,
  elapsed: Duration,
  fixSigma: Length = Length.nauticalMiles(1),
): Working<SetAndDrift> {
  if (!(elapsed.hours > 0))
    throw new OutOfRangeError('set and drift need the hours since the last fix, more than none');
  const { course, distance } = rhumbBetween(dr, fix);
  const value = new SetAndDrift(
    course,
    Speed.knots(distance.nauticalMiles / elapsed.hours),
    distance,
  );
  return new Working<SetAndDrift>(
    'Set and drift',
    [
      methodStep({
        rule: 'DR to fix',
        title: 'From the DR to the fix',
        plain: 'rhumb line on WGS 84',
        figures: `${dr.toString()} to ${fix.toString()}: ${formatBearing(course.degrees)}, ${distance.nauticalMiles.toFixed(1)} nm`,
        result: course,
        written: formatBearing(course.degrees),
      }),
      methodStep({
        rule: 'set and drift',
        title: 'Set and drift',
        plain: 'drift = distance / hours',
        figures: `${distance.nauticalMiles.toFixed(1)} nm / ${elapsed.hours.toFixed(2)} h`,
        result: value,
      }),
    ],
    distance.nauticalMiles < 2 * fixSigma.nauticalMiles
      ? ['The distance is within what the fix itself leaves uncertain: no current is proved by it.']
      : [],
    new Uncertainty([{ cause: 'fix', sigmaArcmin: fixSigma.nauticalMiles }], ' nm'),
  );
}

/** One stretch of a day's work. */
export interface DayLeg {
  /** Course steered, by compass when an error is given, else true. */
  readonly course: Angle | string;
  /** Through the water, by log. */
  readonly distance: Length | LengthText;
  /** Compass error, east positive (variation and deviation together). */
  readonly compassError?: Angle;
  /** Leeway, positive when the vessel is set to starboard of her heading. */
  readonly leeway?: Angle;
}

/** What a day’s work may be told of current and of the errors of log and course. */
export interface DayWorkOptions {
  /** A current over the whole time: where it sets and its drift. */
  readonly current?: {
    readonly set: Angle | string;
    readonly drift: Speed | SpeedText;
    readonly hours: number;
  };
  /** One standard deviation of the log, as a part of the distance (0.05 unless told) and of course made good (3°). */
  readonly logSigma?: number;
  /** One standard deviation of the course made good; 3° unless told. */
  readonly courseSigma?: Angle;
}

/** A day's work: where the legs led. */
export class DayWork {
  constructor(
    readonly from: Position,
    readonly to: Position,
    /** Made good from `from` to `to`. */
    readonly course: Angle,
    readonly distance: Length,
    readonly legs: readonly {
      readonly course: Angle;
      readonly distance: Length;
      readonly position: Position;
    }[],
  ) {
    Object.freeze(this);
  }
  /** In one line, as it is written in the log. */
  toString(): string {
    return `${this.to.toString()}; made good ${formatBearing(this.course.degrees)}, ${this.distance.nauticalMiles.toFixed(1)} nm`;
  }
}

/**
 * A day's work: compass courses turned true, leeway and current allowed for, each leg along its rhumb line on WGS 84, then
 * course and distance made good. The uncertainty is that of the arrival, radial, in miles as minutes of arc.
 * @throws OutOfRangeError with no legs; EntryError for a text that cannot be read
 */
export function dayWork(
  from: Position,
  legs: readonly DayLeg[],
  options: DayWorkOptions = {},
): Working<DayWork> {
  if (legs.length === 0) throw new OutOfRangeError("a day's work needs at least one leg");
  const logSigma = options.logSigma ?? 0.05;
  const courseSigma = (options.courseSigma ?? Angle.degrees(3)).radians;
  let place = from;
  let variance = 0;
  const sailed: { course: Angle; distance: Length; position: Position }[] = [];
  const steps: Step[] = [];
  const sail = (title: string, figures: string, course: Angle, distance: Length) => {
    place = rhumbDestination(place, course, distance);
    sailed.push({ course, distance, position: place });
    const miles = distance.nauticalMiles;
    const [dLat, departure] = [miles * Math.cos(course.radians), miles * Math.sin(course.radians)];
    steps.push(
      methodStep({
        rule: `leg ${sailed.length}`,
        title,
        plain: 'D. Lat = dist cos course, Dep = dist sin course',
        figures: `${figures}; ${Math.abs(dLat).toFixed(1)} nm ${dLat < 0 ? 'S' : 'N'}, ${Math.abs(departure).toFixed(1)} nm ${departure < 0 ? 'W' : 'E'}`,
        result: place,
      }),
    );
    variance += (miles * logSigma) ** 2 + (miles * courseSigma) ** 2;
  };
  legs.forEach((leg, i) => {
    const steered = valueOrText(Angle, leg.course, bearing);
    const course = steered
      .plus(leg.compassError ?? Angle.zero)
      .plus(leg.leeway ?? Angle.zero)
      .normalized();
    const distance = valueOrText(Length, leg.distance, length);
    const changed =
      leg.compassError || leg.leeway ? `${formatBearing(steered.degrees)} steered, ` : '';
    sail(
      `Leg ${i + 1}`,
      `${changed}${formatBearing(course.degrees)} true, ${distance.nauticalMiles.toFixed(1)} nm`,
      course,
      distance,
    );
  });
  if (options.current) {
    const set = valueOrText(Angle, options.current.set, bearing);
    const drift = valueOrText(Speed, options.current.drift, speed);
    const distance = Length.nauticalMiles(drift.knots * options.current.hours);
    sail(
      'Current',
      `${formatBearing(set.degrees)}, ${drift.knots.toFixed(1)} kn for ${options.current.hours} h`,
      set,
      distance,
    );
  }
  const made = rhumbBetween(from, place);
  return new Working<DayWork>(
    'Day’s work',
    [
      ...steps,
      methodStep({
        rule: 'made good',
        title: 'Arrived, and course and distance made good',
        plain: 'rhumb line from first to last',
        figures: `${formatBearing(made.course.degrees)}, ${made.distance.nauticalMiles.toFixed(1)} nm`,
        result: new DayWork(from, place, made.course, made.distance, sailed),
      }),
    ],
    [],
    new Uncertainty([{ cause: 'log and compass', sigmaArcmin: Math.sqrt(variance) }], ' nm'),
  );
}
