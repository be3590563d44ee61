import { indexError } from '../../core/sextant/index.js';
import { apparentPlace, bodyNames, solarSystemNames, type BodyName } from '../../core/sky/index.js';
import {
  Angle,
  angle,
  bearing,
  Instant,
  length,
  OutOfRangeError,
  speed,
  Length,
  type LengthText,
  type Position,
  Speed,
  type SpeedText,
} from '../../core/units/index.js';
import { valueOrText } from '../../core/units/value-or-text.js';
import {
  list,
  oneOf,
  optional,
  record,
  text,
  ViewDataError,
  within,
  type Check,
} from '../check.js';
import { ephemerisPieces } from '../inputs/check-pieces.js';
import { ephemerisUsedBy, type EphemerisPieces } from '../inputs/ephemeris-pieces.js';

/** Data of the sky view: what it is worked out from, and nothing worked out. */
export interface SkyData {
  readonly format: 1;
  /** The time asked for, to which the DR belongs, and the noon by local mean time before it; UTC. */
  readonly atMs: number;
  readonly noonMs: number;
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly courseDeg: number;
  readonly speedKn: number;
  readonly eyeHeightM: number;
  /** On the arc +. */
  readonly indexErrorArcmin: number;
  readonly lowestDeg: number;
  readonly highestDeg: number;
  /** Bodies in the set. */
  readonly count: number;
  readonly sigmaArcmin: number;
  readonly sharedArcmin: number;
  readonly moonGlareDeg: number;
  readonly faintest: number;
  /** Arcs of the horizon that can be used, clockwise; none means all of it. */
  readonly horizon: readonly { readonly fromDeg: number; readonly toDeg: number }[];
  /** Bodies thought of; none means all. */
  readonly bodies: readonly BodyName[];
  readonly ephemeris?: EphemerisPieces;
  readonly viewId?: string;
}

/** What `skyView` is asked: the DR and its time, and what limits the round. */
export interface SkyOptions {
  /** Where the vessel is thought to be at `time`. */
  readonly dr: Position;
  /** The DR is for this time; the view reaches from the noon before to the noon after it, local mean time. */
  readonly time: string | Instant;
  /** With a speed the DR runs on as the time is moved; true course. */
  readonly course?: string | Angle;
  /** See `course`; none unless told. */
  readonly speed?: SpeedText | Speed;
  /** 2 m unless told. */
  readonly eyeHeight?: LengthText | Length;
  /** `1.4′ off the arc`; none unless told. */
  readonly indexError?: string | Angle;
  /** Altitudes in reach; 15° and 70° unless told. */
  readonly lowest?: string | Angle;
  /** 70° unless told. */
  readonly highest?: string | Angle;
  /** Bodies in the set, 3 to 7; 5 unless told. */
  readonly count?: number;
  /** One standard deviation of an altitude, and of the error all share; 0.7′ and 1′ unless told. */
  readonly sigma?: Angle;
  /** One standard deviation of the error all share; 1′ unless told. */
  readonly sharedSigma?: Angle;
  /** 15° unless told: see `bestSet`. */
  readonly moonGlare?: Angle;
  /** 2.5 unless told. */
  readonly faintest?: number;
  /** Arcs of the horizon that can be used, true bearings clockwise; all of it unless told. */
  readonly horizon?: readonly { readonly from: string | Angle; readonly to: string | Angle }[];
  /** All of them unless told. */
  readonly bodies?: readonly BodyName[];
}

export const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
const NOON_MS = 12 * HOUR_MS;
/** Places are carried for this long before and after the day, for what is drawn ahead and for light on its way. */
export const MARGIN_MS = HOUR_MS;
const MOST_ARCS = 12;
/** Nearer to a pole azimuths turn too fast for a table of ten minutes. */
const GREATEST_LAT_DEG = 89.9;

/** Noon by local mean time at or before a moment, to the whole minute. */
function noonBefore(ms: number, lonDeg: number): number {
  const ahead = Math.round(lonDeg * 4) * 60_000;
  return Math.floor((ms + ahead - NOON_MS) / DAY_MS) * DAY_MS + NOON_MS - ahead;
}

/** Places of every hour: a granule of the ephemeris lasts days, so none is missed. */
function placesOfTheDay(noonMs: number): EphemerisPieces | undefined {
  return ephemerisUsedBy(() => {
    for (let ms = noonMs - 2 * MARGIN_MS; ms <= noonMs + DAY_MS + MARGIN_MS; ms += HOUR_MS)
      for (const body of solarSystemNames) apparentPlace(body, Instant.fromEpochMs(ms));
  });
}

/**
 * @throws EntryError for what cannot be read, OutOfRangeError for limits that leave nothing between them, RangeError for a
 * figure out of its bounds
 */
export function skyData(options: SkyOptions, viewId?: string): SkyData {
  const { dr } = options;
  if (Math.abs(dr.latDeg) > GREATEST_LAT_DEG)
    throw new OutOfRangeError(
      `at ${dr} no direction is north any more: give a DR a few miles from the pole`,
    );
  const at = valueOrText(Instant, options.time, (text) => Instant.utc(text));
  const noonMs = noonBefore(at.epochMs, dr.lonDeg);
  const eye = options.eyeHeight ?? '2 m';
  const run = options.speed ?? '0 kn';
  const ephemeris = placesOfTheDay(noonMs);
  const lowestDeg = valueOrText(Angle, options.lowest ?? '15°', angle).degrees;
  const highestDeg = valueOrText(Angle, options.highest ?? '70°', angle).degrees;
  if (!(lowestDeg < highestDeg))
    throw new OutOfRangeError(
      `nothing lies between a lowest altitude of ${lowestDeg}° and a highest of ${highestDeg}°: '15°' and '70°'`,
    );
  return checkSkyData({
    format: 1,
    atMs: at.epochMs,
    noonMs,
    latDeg: dr.latDeg,
    lonDeg: dr.lonDeg,
    courseDeg: valueOrText(Angle, options.course ?? '000°', bearing).normalized().degrees,
    speedKn: valueOrText(Speed, run, speed).knots,
    eyeHeightM: valueOrText(Length, eye, length).metres,
    indexErrorArcmin: valueOrText(Angle, options.indexError ?? 'none', indexError).arcminutes,
    lowestDeg,
    highestDeg,
    count: options.count ?? 5,
    sigmaArcmin: options.sigma?.arcminutes ?? 0.7,
    sharedArcmin: options.sharedSigma?.arcminutes ?? 1,
    moonGlareDeg: options.moonGlare?.degrees ?? 15,
    faintest: options.faintest ?? 2.5,
    horizon: (options.horizon ?? []).map(({ from, to }) => ({
      fromDeg: valueOrText(Angle, from, bearing).normalized().degrees,
      toDeg: valueOrText(Angle, to, bearing).normalized().degrees,
    })),
    bodies: options.bodies ?? [],
    ...(ephemeris ? { ephemeris } : {}),
    ...(viewId ? { viewId } : {}),
  });
}

const bodyName: Check<BodyName> = (value, path) => oneOf(...bodyNames)(value as BodyName, path);

/** Bounds of what a reader may move as well. */
export const BOUNDS = {
  eyeHeightM: [0, 60],
  indexErrorArcmin: [-30, 30],
  lowestDeg: [3, 85],
  highestDeg: [5, 89],
  count: [3, 7],
} as const;
const bounded = (name: keyof typeof BOUNDS) => within(BOUNDS[name][0], BOUNDS[name][1]);

const fields = record({
  format: oneOf(1),
  atMs: within(-1.1e13, 7.2e12),
  noonMs: within(-1.1e13, 7.2e12),
  latDeg: within(-GREATEST_LAT_DEG, GREATEST_LAT_DEG),
  lonDeg: within(-180, 180),
  courseDeg: within(0, 360),
  speedKn: within(0, 60),
  eyeHeightM: bounded('eyeHeightM'),
  indexErrorArcmin: bounded('indexErrorArcmin'),
  lowestDeg: bounded('lowestDeg'),
  highestDeg: bounded('highestDeg'),
  count: oneOf(3, 4, 5, 6, 7),
  sigmaArcmin: within(0.05, 60),
  sharedArcmin: within(0, 60),
  moonGlareDeg: within(0, 180),
  faintest: within(-5, 9),
  horizon: list(record({ fromDeg: within(0, 360), toDeg: within(0, 360) }), MOST_ARCS),
  bodies: list(bodyName, bodyNames.length),
  ephemeris: optional(ephemerisPieces),
  viewId: optional(text),
});

/** Data of the view out of a notebook file. @throws ViewDataError naming the field that is wrong */
export function checkSkyData(value: unknown): SkyData {
  const data = fields(value, '') as SkyData;
  if (!(data.atMs >= data.noonMs && data.atMs <= data.noonMs + DAY_MS))
    throw new ViewDataError('atMs', 'within the day that begins with noonMs', data.atMs);
  if (!(data.lowestDeg < data.highestDeg))
    throw new ViewDataError('highestDeg', `above lowestDeg, ${data.lowestDeg}`, data.highestDeg);
  return data;
}
