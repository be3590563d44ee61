import type { Angle } from '../units/angle.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import type {
  LengthText,
  PressureText,
  SpeedText,
  TemperatureText,
} from '../units/quantity-text.js';
import type { Length, Pressure, Speed, Temperature } from '../units/scalar.js';
import type { AlmanacEntry } from '../sky/almanac-entry.js';
import type { BodyName } from '../sky/body-names.js';
import type { CertificateFields } from './certificate.js';
import type { SextantCause } from './error-budget.js';
import type { Working } from '../working/working.js';
import type { RefractionModel } from './refraction-kernel.js';
import type { Horizon, Limb } from './sight.js';
import type { HorizonKind } from './altitude-kernel.js';
import type { WatchFields } from './watch.js';

/** One entry or several: readings and their times are taken in pairs. */
export type OneOrMore<T> = T | readonly T[];

/** What `sight()` takes: what a navigator writes, or the value itself. */
export interface SightFields {
  /** `Sun`, `Moon`, `Venus`, `Aldebaran` … */
  readonly body: BodyName;
  /** Sun and Moon: lower unless told. */
  readonly limb?: Limb;
  /** `41°18.6′`; several readings as a list. */
  readonly reading: OneOrMore<string | Angle>;
  /** `2027-05-11 09:42:17 UTC`; one for each reading, or one for all. With `watch`, the time the watch showed. */
  readonly time: OneOrMore<string | Instant>;
  /** The sea horizon unless told. `short` wants `waterlineDistance`. */
  readonly horizon?: HorizonKind | Horizon;
  /** Distance of a beach or another vessel's waterline: `0.4 nmi`. */
  readonly waterlineDistance?: LengthText | Length;
  /** `2.6 m`, `9 ft`; above the water. */
  readonly eyeHeight?: LengthText | Length;
  /** `1.4′ off the arc`, `0.8′ on the arc`, `none`; an Angle is on the arc positive; or what an index check found. */
  readonly indexError?: string | Angle | Working<Angle>;
  /** Sights under one check of the index share its error; the day unless told. */
  readonly indexCheckKey?: string;
  /** The certificate: pairs of reading and correction. */
  readonly instrumentTable?: CertificateFields;
  /** `21 °C`; 10 °C unless told. */
  readonly temperature?: TemperatureText | Temperature;
  /** `1016 hPa`, `29.92 inHg`; 1010 hPa unless told. */
  readonly pressure?: PressureText | Pressure;
  /** `formula`, `integral`, or the formula with the integral below 10°, which is taken unless told. */
  readonly refractionModel?: RefractionModel;
  /** Error and rate of the watch, where `time` is what it showed. */
  readonly watch?: WatchFields;
  /** Dead-reckoning position at the time of the sight. */
  readonly dr?: Position;
  /** True course, `312°`. */
  readonly course?: string | Angle;
  /** `5.2 kn`. */
  readonly speed?: SpeedText | Speed;
  readonly observer?: string;
  readonly instrument?: string;
  /** Sights of one session share the error of dip; the day unless told. */
  readonly session?: string;
  /** Total uncertainty, one standard deviation: `0.8′`. */
  readonly sigma?: string | Angle;
  /** One standard deviation of single causes: `{ dip: '0.6′' }`. */
  readonly errorBudget?: Partial<Readonly<Record<SextantCause, string | Angle>>>;
  /** Figures of a printed almanac. */
  readonly place?: AlmanacEntry;
  readonly remarks?: string;
}
