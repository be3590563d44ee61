import { angle } from '../units/angle-text.js';
import { Angle } from '../units/angle.js';
import { bearing } from '../units/bearing-text.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import { length, speed, type LengthText, type SpeedText } from '../units/quantity-text.js';
import { Length, Speed } from '../units/scalar.js';
import { valueOrText } from '../units/value-or-text.js';
import { probability } from './distributions.js';

/** A course and speed held from an instant on (from the beginning when none is given). */
export interface TrackLegFields {
  /** When it begins; absent for the first. */
  readonly from?: Instant;
  /** True course. */
  readonly course: Angle | string;
  readonly speed: Speed | SpeedText;
}

/** What a fix may be told. Texts are read as a navigator writes them: `'312°'`, `'5.2 kn'`, `'0.8′'`. */
export interface FixOptions {
  /** DR position at the time of the fix. Unless told, the last sight's own DR carried there by the run. */
  readonly dr?: Position;
  /** Probability of the region that is drawn, 0.95 unless told. */
  readonly level?: number;
  /** Time of the fix; the last sight's unless told. */
  readonly at?: Instant;
  /** True course and speed over the whole round; unless told, each sight's own, from its time on. */
  readonly course?: Angle | string;
  /** See `course`. */
  readonly speed?: Speed | SpeedText;
  /** Courses and speeds one after another, instead of one. */
  readonly track?: readonly TrackLegFields[];
  /** Current: direction it sets to and its speed. */
  readonly current?: { readonly set: Angle | string; readonly drift: Speed | SpeedText };
  /** Standard deviations of course made good (3° unless told), speed (0.3 kn) and each component of the current (0). */
  readonly courseSigma?: Angle | string;
  /** One standard deviation of the speed made good; 0.3 kn unless told. */
  readonly speedSigma?: Speed | SpeedText;
  /** One standard deviation of each component of the current; 0 unless told. */
  readonly currentSigma?: Speed | SpeedText;
  /** One standard deviation for every altitude, independent of each other, instead of the sights' error budgets. */
  readonly sigma?: Angle | string;
  /** Estimate the scatter from the round itself: wider regions, honest when the budget is a guess. */
  readonly estimateSigma?: boolean;
  /** Estimate one error common to all altitudes (index, dip) as a third unknown. */
  readonly commonBias?: boolean;
  /** Let the DR count as an observation with this standard deviation in each direction. */
  readonly prior?: { readonly sigma: Length | LengthText; readonly position?: Position };
  /** `auto` takes the exact density on a grid where circles are not nearly straight. */
  readonly method?: 'auto' | 'ellipse' | 'grid';
}

/** The options with every text read and every default filled in. */
export interface FixSettings {
  readonly dr?: Position;
  readonly level: number;
  readonly at?: Instant;
  readonly track?: readonly TrackLeg[];
  readonly current?: { readonly setDeg: number; readonly driftKn: number };
  readonly courseSigmaDeg: number;
  readonly speedSigmaKn: number;
  readonly currentSigmaKn: number;
  readonly sigmaArcmin?: number;
  readonly estimateSigma: boolean;
  readonly commonBias: boolean;
  readonly prior?: { readonly sigmaArcmin: number; readonly position?: Position };
  readonly method: 'auto' | 'ellipse' | 'grid';
}

/** A course and speed held from an instant on, as numbers. */
export interface TrackLeg {
  readonly from?: Instant;
  readonly courseDeg: number;
  readonly speedKn: number;
}

/** Course made good and speed by log of a small vessel: common practice, no source. */
const COURSE_SIGMA_DEG = 3;
const SPEED_SIGMA_KN = 0.3;

/**
 * The options of a fix with every text read and every default filled in.
 * @throws OutOfRangeError for an impossible level; EntryError for a text that cannot be read; RangeError for a sigma that is not
 * positive, a course without a speed or a speed without a course
 */
export function fixSettings(o: FixOptions): FixSettings {
  const one = o.course !== undefined && o.speed !== undefined;
  if (!one && (o.course !== undefined || o.speed !== undefined))
    throw new RangeError(
      "a run needs both course and speed: { course: '312°', speed: '5.2 kn' }; one of them is missing",
    );
  const track =
    o.track?.map(legOf) ??
    (one ? [legOf({ course: o.course as string, speed: o.speed as SpeedText })] : undefined);
  return {
    ...(o.dr ? { dr: o.dr } : {}),
    level: probability(o.level ?? 0.95),
    ...(o.at ? { at: o.at } : {}),
    ...(track ? { track } : {}),
    ...(o.current
      ? { current: { setDeg: toAngle(o.current.set, bearing), driftKn: toKnots(o.current.drift) } }
      : {}),
    courseSigmaDeg: o.courseSigma === undefined ? COURSE_SIGMA_DEG : toAngle(o.courseSigma, angle),
    speedSigmaKn: o.speedSigma === undefined ? SPEED_SIGMA_KN : toKnots(o.speedSigma),
    currentSigmaKn: o.currentSigma === undefined ? 0 : toKnots(o.currentSigma),
    ...(o.sigma === undefined ? {} : { sigmaArcmin: positive(toAngle(o.sigma, angle) * 60) }),
    estimateSigma: o.estimateSigma ?? false,
    commonBias: o.commonBias ?? false,
    ...(o.prior
      ? {
          prior: {
            sigmaArcmin: positive(valueOrText(Length, o.prior.sigma, length).nauticalMiles),
            ...(o.prior.position ? { position: o.prior.position } : {}),
          },
        }
      : {}),
    method: o.method ?? 'auto',
  };
}

function legOf(leg: TrackLegFields): TrackLeg {
  return {
    ...(leg.from ? { from: leg.from } : {}),
    courseDeg: toAngle(leg.course, bearing),
    speedKn: toKnots(leg.speed),
  };
}

function toAngle(value: Angle | string, read: (text: string) => Angle): number {
  return valueOrText(Angle, value, read).degrees;
}

function toKnots(value: Speed | string): number {
  return valueOrText(Speed, value, speed).knots;
}

function positive(sigma: number): number {
  if (!(sigma > 0))
    throw new RangeError(`a standard deviation must be greater than zero, not ${sigma}`);
  return sigma;
}
