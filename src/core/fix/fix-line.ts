import { feature, lineGeometry, type Feature } from '../line/geojson.js';
import { label, type AltitudeObservation } from '../line/observation.js';
import type { PositionLine } from '../line/position-line.js';
import type { Angle } from '../units/angle.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import { Length } from '../units/scalar.js';
import type { Leg } from './altitude-model.js';
import { carriedBack } from './region-of.js';

/** A position line of a round, as taken and as carried to the time of the fix by the run. */
export class FixLine {
  constructor(
    readonly observation: AltitudeObservation,
    /** The line as taken, from the DR at its own time. */
    readonly line: PositionLine,
    /** The run from the fix to where the sight was taken, against time where the sight came first. */
    readonly legs: readonly Leg[],
  ) {
    Object.freeze(this);
  }
  /** The body that was observed. */
  get body(): string {
    return this.observation.body;
  }
  /** When it was observed. */
  get instant(): Instant {
    return this.observation.instant;
  }
  /** `Sun 09:42:17`. */
  get label(): string {
    return label(this.observation);
  }
  /** True azimuth at the DR of its own time. */
  get azimuth(): Angle {
    return this.line.azimuth;
  }
  /** Intercept from the DR of its own time, toward positive. */
  get intercept(): Length {
    return this.line.intercept;
  }
  /** Whether the run moved the line. */
  get carried(): boolean {
    return this.legs.length > 0;
  }
  /** Places along the line at the time of the fix. @param halfLength each way, 60 nm unless told */
  points(halfLength: Length = Length.nauticalMiles(60), count = 25): Position[] {
    return this.line.points(halfLength, count).map((p) => carriedBack(p, this.legs));
  }
  /** Places along the line as it was taken. */
  takenPoints(halfLength: Length = Length.nauticalMiles(60), count = 25): Position[] {
    return this.line.points(halfLength, count);
  }
  /** The line at the time of the fix. @param halfLength each way, 60 nm unless told */
  toGeoJson(halfLength?: Length): Feature {
    return feature(lineGeometry(this.points(halfLength)), {
      ...this.line.toGeoJson(halfLength).properties,
      carried: this.carried,
    });
  }
  /** `Sun 09:42:17: 3.1 nm toward 045°`. */
  toString(): string {
    return this.line.toString();
  }
  /** The line as taken, and whether the run moved it. */
  toJSON(): unknown {
    return { ...(this.line.toJSON() as object), carried: this.carried };
  }
}
