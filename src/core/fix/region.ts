import { areaGeometry, feature, type Feature } from '../line/geojson.js';
import { Angle } from '../units/angle.js';
import { formatBearing } from '../units/angle-format.js';
import { Position } from '../units/position.js';
import { Length } from '../units/scalar.js';
import { eigen2, type Matrix, times, dot, inverse } from './matrix.js';
import { move, offset } from './sphere.js';

/** How a region was found. */
export type RegionMethod =
  | 'ellipse, known sigma'
  | 'ellipse, estimated sigma'
  | 'exact density on a grid'
  | 'band of a single line';

/** The outline of a region and its size. */
export interface RegionShape {
  /** Half the longest and half the narrowest extent (semi-axes of an ellipse); 1′ of arc is 1 nautical mile. */
  readonly semiMajor: Length;
  readonly semiMinor: Length;
  /** True direction of the long axis, 0° to 180°. */
  readonly axis: Angle;
  /** Outline, counter-clockwise, not closed by repetition. */
  readonly polygon: readonly Position[];
}

/** Where the vessel is with a stated probability. */
export class Region {
  readonly #make: () => RegionShape;
  readonly #holds: (latDeg: number, lonDeg: number) => boolean;
  #shape: RegionShape | undefined;
  constructor(
    readonly level: number,
    readonly method: RegionMethod,
    /** False for the band of a single line: `semiMajor` is then only as much of it as is drawn. */
    readonly bounded: boolean,
    shape: () => RegionShape,
    holds: (latDeg: number, lonDeg: number) => boolean,
  ) {
    this.#make = shape;
    this.#holds = holds;
    Object.freeze(this);
  }
  get #drawn(): RegionShape {
    this.#shape ??= this.#make();
    return this.#shape;
  }
  /** Half the longest extent (semi-axis of an ellipse); 1′ of arc is 1 nautical mile. */
  get semiMajor(): Length {
    return this.#drawn.semiMajor;
  }
  /** Half the narrowest extent. */
  get semiMinor(): Length {
    return this.#drawn.semiMinor;
  }
  /** True direction of the long axis, 0° to 180°. */
  get axis(): Angle {
    return this.#drawn.axis;
  }
  /** Outline, counter-clockwise, not closed by repetition. */
  get polygon(): readonly Position[] {
    return this.#drawn.polygon;
  }
  /** Whether a place lies inside, by the exact criterion, not by the polygon. */
  contains(place: Position): boolean {
    return this.#holds(place.latDeg, place.lonDeg);
  }
  /** GeoJSON (RFC 7946), cut at the antimeridian. */
  toGeoJson(): Feature {
    return feature(areaGeometry(this.polygon), {
      kind: 'region',
      level: this.level,
      method: this.method,
      semiMajorNm: this.semiMajor.nauticalMiles,
      semiMinorNm: this.semiMinor.nauticalMiles,
      axisDeg: this.axis.degrees,
    });
  }
  /** `95 % region 1.9 × 0.8 nm (semi-axes), long axis 062°`. */
  toString(): string {
    const percent = Number((this.level * 100).toFixed(1));
    const minor = `${this.semiMinor.nauticalMiles.toFixed(1)} nm`;
    const axis = formatBearing(this.axis.degrees);
    return this.bounded
      ? `${percent} % region ${this.semiMajor.nauticalMiles.toFixed(1)} × ${minor} (semi-axes), long axis ${axis}`
      : `${percent} % band ± ${minor} along ${axis}, open at both ends`;
  }
  /** Plain data: level, method, semi-axes in miles, direction of the long axis in degrees, outline. */
  toJSON(): unknown {
    return {
      level: this.level,
      method: this.method,
      semiMajorNm: this.semiMajor.nauticalMiles,
      semiMinorNm: this.semiMinor.nauticalMiles,
      axisDeg: this.axis.degrees,
      bounded: this.bounded,
      polygon: this.polygon,
    };
  }
}

/**
 * The ellipse dᵀ C⁻¹ d ≤ k² about a place.
 * @param covariance square minutes of arc, rows north and east
 * @param k factor on one standard deviation
 * @param level the probability it is to hold, 0 to 1, as it is printed
 */
export function ellipseRegion(
  centre: { latDeg: number; lonDeg: number },
  covariance: Matrix,
  k: number,
  level: number,
  method: RegionMethod,
): Region {
  const { major, minor, angleRad } = eigen2(covariance);
  const [a, b] = [k * Math.sqrt(major), k * Math.sqrt(Math.max(minor, 0))];
  const [cos, sin] = [Math.cos(angleRad), Math.sin(angleRad)];
  const weight = inverse(covariance);
  return new Region(
    level,
    method,
    true,
    () => ({
      semiMajor: Length.nauticalMiles(a),
      semiMinor: Length.nauticalMiles(b),
      axis: axisAngle(angleRad),
      polygon: Array.from({ length: 72 }, (_, i) => {
        const t = (-2 * Math.PI * i) / 72;
        const [u, v] = [a * Math.cos(t), b * Math.sin(t)];
        return placed(centre, u * cos - v * sin, u * sin + v * cos);
      }),
    }),
    (lat, lon) => {
      const o = offset(centre.latDeg, centre.lonDeg, lat, lon);
      const d = [o.northArcmin, o.eastArcmin];
      return weight !== null && dot(d, times(weight, d)) <= k * k;
    },
  );
}

/** Direction of an axis, radians from north towards east, as 0°–180°. */
export function axisAngle(angleRad: number): Angle {
  const deg = ((angleRad * 180) / Math.PI) % 180;
  return Angle.degrees(deg < 0 ? deg + 180 : deg);
}

/**
 * The place that lies so many minutes of arc (miles) north and east of another, along a great circle of the sphere.
 */
export function placed(
  centre: { latDeg: number; lonDeg: number },
  northArcmin: number,
  eastArcmin: number,
): Position {
  const p = move(centre.latDeg, centre.lonDeg, northArcmin, eastArcmin);
  return Position.degrees(p.latDeg, p.lonDeg);
}
