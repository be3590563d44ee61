import type { Fix, FixOptions } from '../../core/fix/index.js';
import { fixSettings } from '../../core/fix/fix-options.js';
import type { AltitudeObservation } from '../../core/line/index.js';
import { Angle, Duration, Instant, Position, Speed } from '../../core/units/index.js';
import { list, record, text, type Check } from '../check.js';
import { anything, number, oneOf, optional } from '../check.js';
import { decode, encode, type Encoded } from '../inputs/encode.js';

/** What a chart works its fix out from again: altitudes with their errors, and how the fix was asked for. */
export interface FixInputs {
  readonly observations: readonly Encoded[];
  /** Options of `fix()`, the time of the fix always among them. */
  readonly options: Encoded;
}

/** Data of the chart view. */
export interface ChartData extends FixInputs {
  readonly format: 1;
  readonly title: string;
  readonly viewId?: string;
}

/** An observation without the sight behind it: all that a fix needs. */
export function encodeObservation(o: AltitudeObservation): Encoded {
  const { body, instant, observed, gha, declination, placeSource, causes } = o;
  const { watch, dr, course, speed } = o;
  const observer = o.sight?.observer;
  const plain = { body, instant, observed, gha, declination, placeSource, causes };
  return encode({ ...plain, watch, dr, course, speed, observer });
}

const instance =
  <T>(type: abstract new (...args: never[]) => T, what: string): Check<T> =>
  (value, path) => {
    if (value instanceof type) return value;
    throw new RangeError(`the data of this view cannot be read: ${path} should be ${what}`);
  };
const anAngle = instance(Angle as never, 'an angle') as Check<Angle>;

const cause = record({ cause: text, sigmaArcmin: number, sharedKey: optional(text) });
const watch = record({
  sigma: instance(Duration as never, 'a duration') as Check<Duration>,
  key: text,
});
const fields = record({
  body: text,
  instant: instance(Instant as never, 'a time') as Check<Instant>,
  observed: anAngle,
  gha: anAngle,
  declination: anAngle,
  placeSource: optional(text),
  causes: list(cause, 50),
  watch: optional(watch),
  dr: optional(instance(Position as never, 'a position') as Check<Position>),
  course: optional(anAngle),
  speed: optional(instance(Speed as never, 'a speed') as Check<Speed>),
  observer: optional(text),
});

/** An observation that also remembers its observer. */
export type ChartObservation = AltitudeObservation & { readonly observer?: string };

/** @throws RangeError, ViewDataError when it is not an observation */
export function decodeObservation(value: unknown): ChartObservation {
  const o = fields(decode(value), 'observation');
  if (Math.abs(o.observed.degrees) > 90) throw new RangeError('an altitude is at most 90°');
  if (Math.abs(o.declination.degrees) > 90) throw new RangeError('a declination is at most 90°');
  return o as ChartObservation;
}

/** How a fix was asked for, every default filled in. */
export function fixInputs(fix: Fix): FixInputs {
  const s = fix.settings;
  const degrees = (value: number) => Angle.degrees(value);
  const options = {
    at: fix.instant,
    level: s.level,
    dr: s.dr,
    track: s.track?.map((leg) => ({
      from: leg.from,
      course: degrees(leg.courseDeg),
      speed: Speed.knots(leg.speedKn),
    })),
    current: s.current && {
      set: degrees(s.current.setDeg),
      drift: Speed.knots(s.current.driftKn),
    },
    courseSigma: degrees(s.courseSigmaDeg),
    speedSigma: Speed.knots(s.speedSigmaKn),
    currentSigma: Speed.knots(s.currentSigmaKn),
    sigma: s.sigmaArcmin === undefined ? undefined : Angle.arcminutes(s.sigmaArcmin),
    estimateSigma: s.estimateSigma,
    commonBias: s.commonBias,
    prior: s.prior && {
      sigma: { m: s.prior.sigmaArcmin * 1852 },
      position: s.prior.position,
    },
    method: s.method,
  };
  return {
    observations: fix.lines.map((line) => encodeObservation(line.observation)),
    options: encode(options),
  };
}

const chart = record({
  format: oneOf(1),
  title: text,
  viewId: optional(text),
  observations: list(anything, 500),
  options: anything,
});

/** Chart data out of a notebook file; observations are checked where they are read. @throws ViewDataError */
export const checkChartData = (value: unknown): ChartData => chart(value, '') as ChartData;

/** Options of a fix out of view data. @throws RangeError, EntryError when they cannot be */
export function decodeFixOptions(value: unknown): FixOptions {
  const options = withoutNulls(decode(value)) as FixOptions;
  fixSettings(options);
  return options;
}

/** JSON writes `null` where an option is absent. */
function withoutNulls(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return {};
  const clean = (v: unknown): unknown =>
    Array.isArray(v)
      ? v.map(clean)
      : v !== null && typeof v === 'object' && Object.getPrototypeOf(v) === Object.prototype
        ? withoutNulls(v)
        : v;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, v]) => v !== null && v !== undefined)
      .map(([k, v]) => [k, clean(v)]),
  );
}
