import { Angle } from '../units/angle.js';
import { Position } from '../units/position.js';
import { altitudeKernel } from './altitude-kernel.js';
import { areaGeometry, feature, lineGeometry, type Feature } from './geojson.js';
import { asinDeg, atan2Deg, cosDeg, sinDeg, wrap180 } from './trig.js';

/**
 * A point at an angular distance and true bearing along a great circle of the sphere. Degrees throughout, north and east positive;
 * the longitude that comes out within ±180.
 */
export function pointAt(latDeg: number, lonDeg: number, bearingDeg: number, distanceDeg: number) {
  const [sinD, cosD] = [sinDeg(distanceDeg), cosDeg(distanceDeg)];
  const sinLat = sinDeg(latDeg) * cosD + cosDeg(latDeg) * sinD * cosDeg(bearingDeg);
  const lon =
    lonDeg + atan2Deg(sinDeg(bearingDeg) * sinD * cosDeg(latDeg), cosD - sinDeg(latDeg) * sinLat);
  return { latDeg: asinDeg(sinLat), lonDeg: wrap180(lon) };
}

/** The circle of equal altitude: all places where a body has one altitude at one time. */
export class CircleOfEqualAltitude {
  constructor(
    /** Under the body: latitude is its declination, longitude its GHA turned east. */
    readonly geographicalPosition: Position,
    /** Zenith distance, 90° − Ho: the radius of the circle. */
    readonly radius: Angle,
  ) {
    Object.freeze(this);
  }
  /**
   * The circle on which a body has that altitude.
   * @param gha westward
   * @param declination north positive
   * @param observed observed altitude Ho
   */
  static of(gha: Angle, declination: Angle, observed: Angle): CircleOfEqualAltitude {
    return new CircleOfEqualAltitude(
      Position.degrees(declination.degrees, -gha.degrees),
      Angle.degrees(90 - observed.degrees),
    );
  }
  /** Places on the circle, evenly spread by bearing from the geographical position. */
  points(count = 180): Position[] {
    const { latDeg, lonDeg } = this.geographicalPosition;
    return Array.from({ length: count }, (_, k) => {
      const p = pointAt(latDeg, lonDeg, (360 * k) / count, this.radius.degrees);
      return Position.degrees(p.latDeg, p.lonDeg);
    });
  }
  /**
   * The part of the circle within `halfLengthArcmin` of its nearest point to `near`, west of it first, evenly spaced.
   */
  arc(near: Position, halfLengthArcmin = 60, count = 25): Position[] {
    const gp = this.geographicalPosition;
    // From the geographical position the bearing of `near` leads to the nearest point.
    const { azDeg } = altitudeKernel(gp.latDeg, gp.lonDeg, -near.lonDeg, near.latDeg);
    const radius = Math.max(sinDeg(this.radius.degrees), 1e-9);
    const spread = Math.min(180, halfLengthArcmin / 60 / radius);
    return Array.from({ length: count }, (_, k) => {
      const bearing = azDeg + spread * ((2 * k) / (count - 1) - 1);
      const p = pointAt(gp.latDeg, gp.lonDeg, bearing, this.radius.degrees);
      return Position.degrees(p.latDeg, p.lonDeg);
    });
  }
  /** The whole circle as GeoJSON (RFC 7946): a line, cut at the antimeridian. */
  toGeoJson(count = 360): Feature {
    const points = this.points(count);
    return feature(lineGeometry([...points, points[0] as Position]), {
      kind: 'circle of equal altitude',
      radiusDeg: this.radius.degrees,
    });
  }
  /** The cap inside the circle, where the body stands higher. */
  capToGeoJson(count = 360): Feature {
    return feature(areaGeometry(this.points(count)), { kind: 'higher altitude' });
  }
}
