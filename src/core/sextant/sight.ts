import { Angle } from '../units/angle.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import type { Length, Pressure, Speed, Temperature } from '../units/scalar.js';
import { Working } from '../working/working.js';
import type { AlmanacEntry } from '../sky/almanac-entry.js';
import type { BodyName } from '../sky/body-names.js';
import type { Certificate } from './certificate.js';
import type { RefractionModel } from './refraction-kernel.js';
import type { SightFields } from './sight-fields.js';
import type { SextantCause } from './error-budget.js';
import type { WatchCheck } from './watch.js';

/** The limb in the sky, not in the telescope: the lower limb is the one farther from the zenith. */
export type Limb = 'lower' | 'upper' | 'centre';

/** One reading of the arc, with its own time where one was noted. */
export interface Reading {
  /** What the arc shows; negative off the arc. Keeps its text. */
  readonly angle: Angle;
  readonly instant?: Instant;
}

/** What the body was brought down to. */
export type Horizon =
  | { readonly kind: 'natural' }
  /** A waterline nearer than the sea horizon, and how far off it is. */
  | { readonly kind: 'short'; readonly distance: Length }
  | { readonly kind: 'artificial' }
  | { readonly kind: 'bubble' };

/** All that a sight holds, as plain data. */
export interface SightData {
  /** What was observed. */
  readonly body: BodyName;
  /** The limb observed. */
  readonly limb: Limb;
  /** One or several, in the order noted. */
  readonly readings: readonly Reading[];
  /** The moment of the sight, UTC, corrected for the watch: the mean of the readings' times. */
  readonly instant: Instant;
  /** What the body was brought down to. */
  readonly horizon: Horizon;
  /** Above the water. */
  readonly eyeHeight?: Length;
  /** On the arc positive: the sextant reads too much. The correction is its negative. */
  readonly indexError?: Angle;
  /** One standard deviation of the index error. */
  readonly indexSigma?: Angle;
  /** Sights under one check of the index share its error. */
  readonly indexCheckKey: string;
  readonly instrumentTable?: Certificate;
  readonly temperature?: Temperature;
  readonly pressure?: Pressure;
  readonly refractionModel: RefractionModel;
  readonly watch?: WatchCheck;
  /** Where the vessel was thought to be. */
  readonly dr?: Position;
  /** True. */
  readonly course?: Angle;
  readonly speed?: Speed;
  readonly observer?: string;
  readonly instrument?: string;
  /** Sights of one session share the error of dip. */
  readonly session: string;
  /** The total, one standard deviation, when the user states it; it takes the place of the budget. */
  readonly sigma?: Angle;
  /** One standard deviation of single causes, where the user states them. */
  readonly errorBudget: Partial<Readonly<Record<SextantCause, Angle>>>;
  /** Figures of a printed almanac, used instead of a computed place. */
  readonly place?: AlmanacEntry;
  readonly remarks?: string;
  /** What was not given and is taken to be so, in whole phrases. */
  readonly assumptions: readonly string[];
  /** Doubts about the entries themselves, in whole sentences. */
  readonly doubts: readonly string[];
  /** What was typed, untouched. */
  readonly fields: SightFields;
}

/** One sight: readings of one body, brought down to one horizon, at one time. Made by `sight()`; frozen. */
export class Sight implements SightData {
  declare readonly body: BodyName;
  declare readonly limb: Limb;
  declare readonly readings: readonly Reading[];
  declare readonly instant: Instant;
  declare readonly horizon: Horizon;
  declare readonly eyeHeight?: Length;
  declare readonly indexError?: Angle;
  declare readonly indexSigma?: Angle;
  declare readonly indexCheckKey: string;
  declare readonly instrumentTable?: Certificate;
  declare readonly temperature?: Temperature;
  declare readonly pressure?: Pressure;
  declare readonly refractionModel: RefractionModel;
  declare readonly watch?: WatchCheck;
  declare readonly dr?: Position;
  declare readonly course?: Angle;
  declare readonly speed?: Speed;
  declare readonly observer?: string;
  declare readonly instrument?: string;
  declare readonly session: string;
  declare readonly sigma?: Angle;
  declare readonly errorBudget: Partial<Readonly<Record<SextantCause, Angle>>>;
  declare readonly place?: AlmanacEntry;
  declare readonly remarks?: string;
  declare readonly assumptions: readonly string[];
  declare readonly doubts: readonly string[];
  declare readonly fields: SightFields;

  constructor(data: SightData) {
    Object.assign(this, data);
    Object.freeze(this);
  }

  /** `Sun, lower limb`, `Aldebaran`. */
  get bodyAndLimb(): string {
    return this.limb === 'centre' ? this.body : `${this.body}, ${this.limb} limb`;
  }
  /** `Sun, lower limb, 41°18.6′ at 2027-05-11 09:42:17 UTC`. */
  toString(): string {
    const readings = this.readings.map((r) => r.angle.toString()).join(', ');
    return `${this.bodyAndLimb}, ${readings} at ${this.readings.length > 1 ? this.instant.toSecond() : this.instant.toString()}`;
  }
  /** What was typed: `sight(JSON.parse(JSON.stringify(s)))` makes the sight again. */
  toJSON(): unknown {
    const { indexError, errorBudget, ...rest } = this.fields;
    if (!(indexError instanceof Working)) return this.fields;
    // A check's working becomes its two figures.
    const index = this.indexSigma ?? Angle.zero;
    return { ...rest, indexError: this.indexError, errorBudget: { index, ...errorBudget } };
  }
}
