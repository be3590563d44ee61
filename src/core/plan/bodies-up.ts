import { sextantReadingFor, type AltitudeInput } from '../sextant/altitude-kernel.js';
import { limbSign } from '../sextant/limb.js';
import { litLimb } from '../sextant/moon-limb.js';
import type { Limb } from '../sextant/sight.js';
import type { Direction } from '../sextant/sunward.js';
import { computedAltitude } from '../line/computed-altitude.js';
import { apparentPlace } from '../sky/apparent-place.js';
import { bodyNames, type BodyName } from '../sky/body-names.js';
import { Angle } from '../units/angle.js';
import { formatBearing } from '../units/angle-format.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import type { Length } from '../units/scalar.js';

/** A body in reach of the sextant, with what to set on the arc to find it. */
export class BodyUp {
  constructor(
    readonly body: BodyName,
    /** Altitude of the centre, as from the Earth's centre. */
    readonly altitude: Angle,
    readonly azimuth: Angle,
    /** What the sextant will show, for `limb`: set it before looking. */
    readonly preset: Angle,
    readonly magnitude: number | null,
    /** The Sun's lower limb, the Moon's limb that is lit; `centre` for all others. */
    readonly limb: Limb = 'centre',
  ) {
    Object.freeze(this);
  }
  /** `Moon, upper limb`; `Sirius`. */
  get name(): string {
    return this.limb === 'centre' ? this.body : `${this.body}, ${this.limb} limb`;
  }
  /** `Sirius: set 48°12.3′, look 312°`. */
  toString(): string {
    return `${this.name}: set ${this.preset.toString()}, look ${formatBearing(this.azimuth.degrees)}`;
  }
}

/** Which bodies, between which altitudes, and how the sextant is set. */
export interface BodiesUpOptions {
  /** All of them unless told. */
  readonly bodies?: readonly BodyName[];
  /** 10° and 75° unless told. */
  readonly lowest?: Angle;
  /** 75° unless told. */
  readonly highest?: Angle;
  /** 2 m unless told. */
  readonly eyeHeight?: Length;
  /** On the arc positive. */
  readonly indexError?: Angle;
  /** Which limb of the Moon is to be taken; the one that is lit unless told. */
  readonly moonLimb?: 'lower' | 'upper';
}

/** Below 10° refraction is doubtful, over 75° the arc is hard to rock: common practice, no source. */
const LOWEST_DEG = 10;
const HIGHEST_DEG = 75;

/**
 * The bodies between two altitudes at a time, in order of azimuth, with the altitude to preset on the sextant (index error, dip, refraction,
 * parallax and limb put back on).
 * @throws EntryError when there is no body of a name; OutOfRangeError outside the years 1600 to 2200
 */
export function bodiesUp(
  position: Position,
  instant: Instant,
  options: BodiesUpOptions = {},
): BodyUp[] {
  const [low, high] = [
    options.lowest?.degrees ?? LOWEST_DEG,
    options.highest?.degrees ?? HIGHEST_DEG,
  ];
  return (options.bodies ?? bodyNames)
    .map((body) => bodyUp(body, position, instant, options))
    .filter((b) => b.altitude.degrees >= low && b.altitude.degrees <= high)
    .sort((a, b) => a.azimuth.degrees - b.azimuth.degrees);
}

/**
 * Altitude, azimuth and preset of one body, wherever it stands; the preset of one below the horizon is its altitude.
 * @throws EntryError when there is no body of that name; OutOfRangeError outside the years 1600 to 2200
 */
export function bodyUp(
  body: BodyName,
  position: Position,
  instant: Instant,
  options: BodiesUpOptions = {},
): BodyUp {
  const place = apparentPlace(body, instant);
  const { altitude, azimuth } = computedAltitude(position, place.gha, place.declination);
  const limb = limbToTake(body, position, instant, place, options);
  const input: AltitudeInput = {
    readingDeg: 0,
    indexErrorArcmin: options.indexError?.arcminutes ?? 0,
    instrumentArcmin: 0,
    horizon: 'natural',
    eyeHeightM: options.eyeHeight?.metres ?? 2,
    distanceM: NaN,
    temperatureC: 10,
    pressureHpa: 1010,
    refractionModel: 'formula',
    limb: limbSign(limb),
    sdArcmin: place.semidiameter.arcminutes,
    hpArcmin: place.horizontalParallax.arcminutes,
    moon: body === 'Moon',
    latDeg: position.latDeg,
    azimuthDeg: azimuth.degrees,
    phaseArcmin: 0,
  };
  if (body !== 'Sun' && body !== 'Moon') input.sdArcmin = 0;
  const reading = altitude.degrees > 0 ? sextantReadingFor(altitude.degrees, input) : NaN;
  return new BodyUp(
    body,
    altitude,
    azimuth,
    Number.isFinite(reading) ? Angle.degrees(reading) : altitude,
    place.magnitude ?? null,
    limb,
  );
}

function limbToTake(
  body: BodyName,
  { latDeg, lonDeg }: Position,
  instant: Instant,
  place: Direction,
  options: BodiesUpOptions,
): Limb {
  if (body !== 'Moon') return body === 'Sun' ? 'lower' : 'centre';
  if (options.moonLimb) return options.moonLimb;
  return litLimb(latDeg, lonDeg, place, apparentPlace('Sun', instant))?.limb ?? 'lower';
}
