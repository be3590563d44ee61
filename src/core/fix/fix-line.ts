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
  get body(): string {
    return this.observation.body;
  }
  get instant(): Instant {
    return this.observation.instant;
  }
  /** `Sun 09:42:17`. */
  get label(): string {
    return label(this.observation);
  }
  get azimuth(): Angle {
    return this.line.azimuth;
  }
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
  toGeoJson(halfLength?: Length): Feature {
    return feature(lineGeometry(this.points(halfLength)), {
      ...this.line.toGeoJson(halfLength).properties,
      carried: this.carried,
    });
  }
  toString(): string {
    return this.line.toString();
  }
  toJSON(): unknown {
    return { ...(this.line.toJSON() as object), carried: this.carried };
  }
}
