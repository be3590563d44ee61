import { interceptText, longInterceptFlags } from './intercept.js';
import type { Angle } from '../units/angle.js';
import { formatBearing } from '../units/angle-format.js';
import type { Instant } from '../units/instant.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Position } from '../units/position.js';
import { Length } from '../units/scalar.js';
import { type ErrorCause, Uncertainty, Working, type Step } from '../working/working.js';
import { altitudeRateKernel } from './altitude-kernel.js';
import { computedAltitudeWorking, type AltitudeRoute } from './altitude-working.js';
import { CircleOfEqualAltitude } from './circle.js';
import { computedAltitude } from './computed-altitude.js';
import { feature, lineGeometry, type Feature } from './geojson.js';
import {
  ghaRateArcminPerS,
  label,
  observationOf,
  type AltitudeObservation,
  type Observed,
} from './observation.js';
import { rhumbDestination } from './rhumb.js';

/** One line of position: the foot of its intercept, its direction and how well it is known. Frozen. */
export class PositionLine {
  /** Observed less computed altitude as a distance: toward the body positive; 1′ is 1 nautical mile. */
  readonly intercept: Length;
  /** True azimuth Zn, 0–360°; the line runs at right angles to it. */
  readonly azimuth: Angle;
  readonly computed: Angle;
  readonly observed: Angle;
  readonly body: string;
  readonly instant: Instant;
  readonly circle: CircleOfEqualAltitude;
  readonly #route: AltitudeRoute;
  #working: Working<Length> | undefined;

  constructor(
    readonly observation: AltitudeObservation,
    /** Where the altitude was computed for. */
    readonly position: Position,
    route: AltitudeRoute = 'almanac',
  ) {
    const { altitude, azimuth } = computedAltitude(
      position,
      observation.gha,
      observation.declination,
    );
    const miles = observation.observed.minus(altitude).arcminutes;
    this.intercept = Length.nauticalMiles(miles, interceptText(Length.nauticalMiles(miles)));
    this.azimuth = azimuth;
    this.computed = altitude;
    this.observed = observation.observed;
    this.body = observation.body;
    this.instant = observation.instant;
    this.circle = CircleOfEqualAltitude.of(
      observation.gha,
      observation.declination,
      observation.observed,
    );
    this.#route = route;
    Object.freeze(this);
  }

  /** From the reading (or Ho) to the intercept; made when first asked for. */
  get working(): Working<Length> {
    this.#working ??= interceptWorking(this, this.#route);
    return this.#working;
  }
  /** One standard deviation of the intercept with its causes, the watch turned into altitude by dh/dt. */
  get uncertainty(): Uncertainty {
    return new Uncertainty(causesOf(this));
  }
  /** Foot of the intercept: along the azimuth from the position, by the intercept. */
  get foot(): Position {
    return rhumbDestination(this.position, this.azimuth, this.intercept);
  }
  /** Places along the circle of equal altitude near the position. @param halfLength each way, 60 nm unless told */
  points(halfLength: Length = Length.nauticalMiles(60), count = 25): Position[] {
    return this.circle.arc(this.position, halfLength.nauticalMiles, count);
  }
  /** The line as GeoJSON (RFC 7946), cut at the antimeridian; properties carry body, time, intercept and azimuth. */
  toGeoJson(halfLength: Length = Length.nauticalMiles(60)): Feature {
    return feature(lineGeometry(this.points(halfLength)), {
      kind: 'position line',
      body: this.body,
      time: this.instant.toIso(),
      interceptNm: this.intercept.nauticalMiles,
      azimuthDeg: this.azimuth.degrees,
      sigmaNm: this.uncertainty.sigma.arcminutes,
    });
  }
  /** `Sun 09:42:17: 2.3 nm toward 045°`. */
  toString(): string {
    return `${label(this.observation)}: ${interceptText(this.intercept)} ${formatBearing(this.azimuth.degrees)}`;
  }
  /** Plain data: body, time, altitudes, azimuth; `interceptNm` toward positive, `sigmaNm` one standard deviation. */
  toJSON(): unknown {
    return {
      body: this.body,
      instant: this.instant,
      position: this.position,
      observed: this.observed,
      computed: this.computed,
      azimuth: this.azimuth,
      interceptNm: this.intercept.nauticalMiles,
      sigmaNm: this.uncertainty.sigma.arcminutes,
    };
  }
}

/**
 * The position line of a sight (or of an altitude already worked out) from a position.
 * @param position where to compute; the sight's own DR unless told
 * @throws OutOfRangeError when there is no position at all or the body's declination is impossible; EntryError from the sight's own entries
 */
export function positionLine(
  sight: Observed,
  position?: Position,
  options: { readonly route?: AltitudeRoute } = {},
): PositionLine {
  const observation = observationOf(sight);
  return new PositionLine(
    observation,
    whereOf(observation, position, 'positionLine'),
    options.route,
  );
}

/** @throws OutOfRangeError that shows the call with a position */
function whereOf(
  observation: AltitudeObservation,
  given: Position | undefined,
  call: string,
): Position {
  const where = given ?? observation.dr;
  if (where) return where;
  throw new OutOfRangeError(
    `${label(observation)} has no DR: give a position, ${call}(sight, position('19°31′ S', '001°12′ W'))`,
  );
}

/**
 * The whole reduction as one working, from the reading to the intercept; the value is the position line.
 * @param position where to compute; the sight's own DR unless told
 * @throws OutOfRangeError when there is no position at all, or the body is more than 1° below the horizon
 * @example
 * ```ts
 * import { position, reduce, sight } from 'cocked-hat';
 *
 * const forenoon = sight({
 *   body: 'Sun', limb: 'lower', reading: '39°13.7′', time: '2027-05-11 09:42:17 UTC',
 *   eyeHeight: '2.6 m', indexError: '1.4′ off the arc', dr: position('19°31′ S', '001°12′ W'),
 * });
 * reduce(forenoon).value.toString()
 * ```
 * ```text
 * 'Sun 09:42:17: 3.1 nm toward 045°'
 * ```
 */
export function reduce(
  sight: Observed,
  position?: Position,
  options: { readonly route?: AltitudeRoute } = {},
): Working<PositionLine> {
  const observation = observationOf(sight);
  const line = new PositionLine(
    observation,
    whereOf(observation, position, 'reduce'),
    options.route,
  );
  const steps = line.working.steps.map((s, i, all) =>
    i === all.length - 1 ? { ...s, result: line } : s,
  );
  return new Working<PositionLine>(
    `Position line: ${label(observation)}`,
    steps as unknown as [...Step[], Step<PositionLine>],
    line.working.flags,
    line.uncertainty,
  );
}

/** Causes of the altitude and the watch, whose error turns into altitude by dh/dt. */
function causesOf(line: PositionLine): ErrorCause[] {
  const { observation, position } = line;
  const causes = [...observation.causes];
  const timeSigma = observation.watch?.sigma.seconds ?? 0;
  if (observation.watch && timeSigma > 0) {
    const rate = altitudeRateKernel(
      position.latDeg,
      line.azimuth.degrees,
      ghaRateArcminPerS(observation.body),
    );
    causes.push({
      cause: 'watch',
      sigmaArcmin: Math.abs(rate) * timeSigma,
      sharedKey: `watch:${observation.watch.key}`,
    });
  }
  return causes;
}

function interceptWorking(line: PositionLine, route: AltitudeRoute): Working<Length> {
  const { observation, position } = line;
  const head: readonly Step[] = observation.working?.steps ?? [givenAltitude(observation)];
  const computed = computedAltitudeWorking(
    position,
    observation.gha,
    observation.declination,
    route,
  );
  const last: Step<Length> = {
    rule: 'intercept',
    title: 'Intercept',
    kind: 'result',
    formula: {
      latex: 'p = H_o - H_c',
      plain: 'intercept = Ho − Hc; toward when Ho is the greater',
    },
    figures: `${observation.observed.toString()} − ${line.computed.toString()}`,
    inputs: [
      {
        name: 'observed altitude',
        symbol: 'Ho',
        value: observation.observed,
        text: observation.observed.toString(),
        origin: 'earlier step',
      },
      {
        name: 'computed altitude',
        symbol: 'Hc',
        value: line.computed,
        text: line.computed.toString(),
        origin: 'earlier step',
      },
    ],
    result: line.intercept,
    errors: [],
    source:
      'Marcq St Hilaire method: Bowditch, American Practical Navigator, NGA Pub. 9 (from memory)',
    ...(line.computed.degrees > 80
      ? { caution: 'Above 80° a straight position line is a poor stand-in for the circle.' }
      : {}),
  };
  const place: Step[] = [
    lookedUp('GHA', 'GHA', observation.gha, observation),
    lookedUp('declination', 'Dec', observation.declination, observation),
  ];
  return new Working<Length>(
    `Intercept: ${label(observation)}`,
    [...head, ...place, ...computed.steps, last],
    [...(observation.working?.flags ?? []), ...longInterceptFlags(line.intercept)],
    line.uncertainty,
  );
}

function lookedUp(rule: string, symbol: string, value: Angle, o: AltitudeObservation): Step<Angle> {
  const text =
    symbol === 'Dec'
      ? `${value.abs().toString()} ${value.degrees < 0 ? 'S' : 'N'}`
      : value.toString();
  return {
    rule,
    title: symbol === 'Dec' ? 'Declination' : 'Greenwich hour angle',
    kind: 'entry',
    formula: { latex: symbol === 'Dec' ? '\\delta' : '\\mathrm{GHA}', plain: symbol },
    figures: `${o.body} at ${o.instant.toSecond()}: ${text}`,
    inputs: [],
    result: value,
    ...(symbol === 'Dec' ? { written: text } : {}),
    errors: [],
    source: o.placeSource ?? 'as given',
  };
}

function givenAltitude(o: AltitudeObservation): Step<Angle> {
  return {
    rule: 'observed altitude',
    title: 'Observed altitude',
    kind: 'entry',
    formula: { latex: 'H_o', plain: 'Ho' },
    figures: o.observed.toString(),
    inputs: [],
    result: o.observed,
    errors: o.causes,
    source: 'as given',
  };
}
