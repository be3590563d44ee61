import type { Feature, FeatureCollection } from '../line/geojson.js';
import { feature, pointGeometry } from '../line/geojson.js';
import { type AltitudeObservation } from '../line/observation.js';
import { PositionLine } from '../line/position-line.js';
import { Angle } from '../units/angle.js';
import type { Instant } from '../units/instant.js';
import { Position } from '../units/position.js';
import { Length } from '../units/scalar.js';
import { type AltitudeRow, placeOfSight } from './altitude-model.js';
import { cockedHatOf } from './cocked-hat.js';
import { chi2Cdf } from './distributions.js';
import type { FixFlag } from './flags.js';
import { bestCrossingDeg } from './flags.js';
import { FixLine } from './fix-line.js';
import { type FixSettings } from './fix-options.js';
import { inverse, type Matrix, multiply, transpose } from './matrix.js';
import type { DensityGrid } from './posterior.js';
import type { Region } from './region.js';
import {
  gridFor,
  leverages,
  positionCovariance,
  type RegionBasis,
  regionOf,
  standardised,
} from './region-of.js';
import { Residual } from './residual.js';
import type { PriorKernel, Solution } from './solve.js';
import { offset } from './sphere.js';

/** Another place that explains the altitudes about as well. */
export interface RivalPosition {
  /** Where else the vessel may be. */
  readonly position: Position;
  /** From the fix. */
  readonly distance: Length;
  /** How much worse its weighted sum of squares is (negative: better). */
  readonly chi2Difference: number;
}

/** How well the directions of the bodies fix a position, whatever the errors. */
export interface GeometryStrength {
  /** Radial standard deviation of the fix in miles for altitudes of 1′ each, independent. Infinite for one line. */
  readonly milesPerArcminute: number;
  /** The least that so many bodies can give: 2/√n, azimuths spread evenly. */
  readonly best: number;
  /** The best crossing of any two lines, 0°–90°. */
  readonly bestCrossing: Angle;
}

/** Everything `Fix` is built from; made by `fix()`. */
export interface FixParts {
  readonly observations: readonly AltitudeObservation[];
  readonly rows: readonly AltitudeRow[];
  readonly settings: FixSettings;
  readonly at: Instant;
  readonly dr: Position | undefined;
  readonly solution: Solution;
  readonly rivals: readonly Solution[];
  readonly prior: PriorKernel | undefined;
  readonly flags: readonly FixFlag[];
  readonly basis: RegionBasis;
}

/** A position from altitudes, with what it is worth. Frozen; everything is recomputed from the same parts. */
export class Fix {
  readonly position: Position;
  readonly instant: Instant;
  readonly level: number;
  readonly flags: readonly FixFlag[];
  readonly residuals: readonly Residual[];
  readonly rivals: readonly RivalPosition[];
  /** DR at the time of the fix, if there is one. */
  readonly dr: Position | undefined;
  readonly settings: FixSettings;
  /** Weighted sum of squared residuals, degrees of freedom, and the chance of a larger one; null with none left over. */
  readonly chi2: number;
  readonly degreesOfFreedom: number;
  readonly chance: number | null;
  /** The common altitude error found, where it was asked for: to be taken off every altitude. */
  readonly commonBias: { readonly value: Angle; readonly sigma: Angle } | null;
  readonly iterations: number;
  readonly #parts: FixParts;
  readonly #regions = new Map<number, Region>();
  #grid: DensityGrid | undefined;
  #lines: readonly FixLine[] | undefined;

  constructor(parts: FixParts) {
    const { solution: s, observations, settings } = parts;
    this.#parts = parts;
    this.position = Position.degrees(s.latDeg, s.lonDeg);
    this.instant = parts.at;
    this.level = settings.level;
    this.flags = Object.freeze([...parts.flags]);
    this.dr = parts.dr;
    this.settings = settings;
    this.chi2 = s.chi2;
    this.degreesOfFreedom = parts.basis.degreesOfFreedom;
    this.chance = this.degreesOfFreedom > 0 ? 1 - chi2Cdf(s.chi2, this.degreesOfFreedom) : null;
    this.iterations = s.iterations;
    const w = standardised(s);
    const h = leverages(s);
    this.residuals = Object.freeze(
      observations.map(
        (o, i) =>
          new Residual(
            o,
            Angle.arcminutes(s.residuals[i] as number),
            Angle.arcminutes(Math.sqrt((s.altitudeCovariance[i] as number[])[i] as number)),
            w[i] ?? null,
            h[i] as number,
          ),
      ),
    );
    this.rivals = Object.freeze(parts.rivals.map((r) => rival(s, r)));
    this.commonBias =
      settings.commonBias && s.unknowns
        ? {
            value: Angle.arcminutes(s.biasArcmin),
            sigma: Angle.arcminutes(Math.sqrt((s.unknowns[2] as number[])[2] as number)),
          }
        : null;
    Object.freeze(this);
  }

  /** The plain numbers behind a fix, for analyses that solve it anew. */
  static partsOf(fix: Fix): FixParts {
    return fix.#parts;
  }
  /**
   * `fix` where the lines cross; `estimated position` for a single line or lines that run parallel: the position is then
   * the point nearest the DR (or the best with the DR's own weight), which a chart marks with a square.
   */
  get kind(): 'fix' | 'estimated position' {
    const isOpen = this.flags.some((f) => f.code === 'single line' || f.code === 'parallel lines');
    return isOpen ? 'estimated position' : 'fix';
  }
  /** The position lines, from the DR (the fix itself when there is none), with where the run carries them. */
  get lines(): readonly FixLine[] {
    this.#lines ??= linesOf(this.#parts, this.dr ?? this.position);
    return this.#lines;
  }
  /** The smallest region that holds the vessel with probability `level`. @param level 0–1; the fix's own unless told */
  region(level: number = this.level): Region {
    let found = this.#regions.get(level);
    if (!found) {
      found = regionOf(this.#parts.basis, level, () => this.#makeGrid());
      this.#regions.set(level, found);
    }
    return found;
  }
  /** Covariance of north and east, square nautical miles, rows north then east; null for a single line. */
  get covariance(): Matrix | null {
    return positionCovariance(this.#parts.basis);
  }
  /** How well the directions of the bodies fix a position. */
  get geometry(): GeometryStrength {
    const j = this.#parts.solution.evaluation.design;
    const c = inverse(multiply(transpose(j), j));
    const trace = c
      ? ((c[0] as number[])[0] as number) + ((c[1] as number[])[1] as number)
      : Infinity;
    return {
      milesPerArcminute: Math.sqrt(trace),
      best: 2 / Math.sqrt(j.length),
      bestCrossing: Angle.degrees(bestCrossingDeg(this.#parts.solution)),
    };
  }
  /** Scatter of the altitudes: standard deviation of one of average weight, found from the residuals; null with none left over. */
  get scatter(): Angle | null {
    if (this.degreesOfFreedom < 1) return null;
    const own = this.#parts.rows.map((r) => r.ownSigmaArcmin ** 2);
    const mean = own.reduce((s, v) => s + v, 0) / own.length;
    return Angle.arcminutes(Math.sqrt((mean * this.chi2) / this.degreesOfFreedom));
  }
  /** Corners of the figure the lines leave, carried to the time of the fix; null with fewer than three lines. */
  cockedHat(): Position[] | null {
    const az = this.#parts.solution.evaluation.altAz.map((a) => a.azDeg);
    return cockedHatOf(this.#parts.rows, az, this.#parts.solution);
  }
  /** Fix, lines, region, cocked hat and DR as one GeoJSON FeatureCollection (RFC 7946). */
  toGeoJson(): FeatureCollection {
    const point = (p: Position, kind: string): Feature =>
      feature(pointGeometry(p), { kind, time: this.instant.toIso() });
    return {
      type: 'FeatureCollection',
      features: [
        point(this.position, this.kind),
        ...(this.dr ? [point(this.dr, 'DR')] : []),
        ...this.lines.map((l) => l.toGeoJson()),
        this.region().toGeoJson(),
        ...this.rivals.map((r) => point(r.position, 'other crossing')),
      ],
    };
  }
  /** `15°55.2′ S, 005°43.1′ W at 2027-05-14 06:12:40 UTC, 95 % region 1.9 × 0.8 nm (semi-axes), long axis 062°`. */
  toString(): string {
    return `${this.position.toString()} at ${this.instant.toString()}, ${this.region().toString()}`;
  }
  /** Plain data: position, time, region, covariance in square miles (north, east), residuals, lines, rivals, flags. */
  toJSON(): unknown {
    return {
      position: this.position,
      instant: this.instant,
      region: this.region(),
      covarianceNm2: this.covariance,
      residuals: this.residuals,
      lines: this.lines,
      rivals: this.rivals,
      flags: this.flags.map((f) => ({ code: f.code, text: f.text })),
      chi2: this.chi2,
      degreesOfFreedom: this.degreesOfFreedom,
      dr: this.dr ?? null,
    };
  }
  #makeGrid(): DensityGrid {
    this.#grid ??= gridFor(this.#parts.basis);
    return this.#grid;
  }
}

function linesOf({ observations, rows }: FixParts, from: Position): readonly FixLine[] {
  return Object.freeze(
    observations.map((o, i) => {
      const legs = (rows[i] as AltitudeRow).legs;
      const p = placeOfSight(from.latDeg, from.lonDeg, legs);
      return new FixLine(o, new PositionLine(o, Position.degrees(p.latDeg, p.lonDeg)), legs);
    }),
  );
}

/** @internal */
export function rival(s: Solution, r: Solution): RivalPosition {
  const o = offset(s.latDeg, s.lonDeg, r.latDeg, r.lonDeg);
  return {
    position: Position.degrees(r.latDeg, r.lonDeg),
    distance: Length.nauticalMiles(Math.hypot(o.northArcmin, o.eastArcmin)),
    chi2Difference: r.chi2 - s.chi2,
  };
}
