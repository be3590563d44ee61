import { dipKernel } from '../sextant/dip-kernel.js';
import type { BodyName } from '../sky/body-names.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Instant } from '../units/instant.js';
import type { Position } from '../units/position.js';
import { Duration, type Length } from '../units/scalar.js';
import { crossings } from './crossings.js';
import { topocentric, type Topocentric } from '../line/topocentric.js';

/** A window of time to look for events in. */
export interface EventWindow {
  /** How long from the start; a day unless told, 31 days at most. */
  readonly span?: Duration;
}

/** How rising and setting are to be found. */
export interface RiseSetOptions extends EventWindow {
  /** Lowers the horizon by the dip; sea level unless told, as almanacs print it. */
  readonly eyeHeight?: Length;
}

/** What a body does in a window: its risings and settings, or that it stays up or down. */
export interface RiseSet {
  readonly body: BodyName;
  /** Risings in the window, in order, to the whole second. */
  readonly rises: readonly Instant[];
  /** Settings in the window, in order, to the whole second. */
  readonly sets: readonly Instant[];
  /** Polar day and night and their like for other bodies. */
  readonly state: 'rises or sets' | 'above the horizon throughout' | 'below the horizon throughout';
}

/** Refraction on the horizon and semi-diameter of the Sun, minutes of arc: USNO definitions of rise, set and twilight. */
const REFRACTION_ARCMIN = 34;
const SUN_SD_ARCMIN = 16;
const STEPS_PER_DAY = 96;
const MAX_SPAN_DAYS = 31;
/** Seconds. */
const ACCURACY_S = 0.02;

/**
 * Rising and setting to the whole second (rounded): upper limb of Sun and Moon on the horizon with 34′ of refraction (Sun: centre 50′ below), the
 * centre of others. Source: definitions of the USNO; within a second of skyfield's below 50° of latitude. The real air moves them by minutes.
 * @param from start of the window, usually midnight
 * @throws OutOfRangeError for a window of more than 31 days or none, or outside the years 1600 to 2200
 * @example
 * ```ts
 * import { Instant, position, riseSet } from 'cocked-hat';
 *
 * riseSet('Sun', position('16°50′ S', '004°23′ W'), Instant.utc('2027-05-13 00:00:00 UTC')).sets.map(String)
 * ```
 * ```text
 * [ '2027-05-13 17:54:23 UTC' ]
 * ```
 */
export function riseSet(
  body: BodyName,
  position: Position,
  from: Instant,
  options: RiseSetOptions = {},
): RiseSet {
  const dip = options.eyeHeight ? dipKernel(options.eyeHeight.metres) : 0;
  const height = (t: Topocentric) => {
    const sd = body === 'Sun' ? SUN_SD_ARCMIN : body === 'Moon' ? t.sdArcmin : 0;
    return t.altDeg + (REFRACTION_ARCMIN + sd + dip) / 60;
  };
  const found = eventsOf(body, position, from, options, height);
  const at = (rising: boolean) =>
    found.events.filter((e) => e.rising === rising).map((e) => e.instant);
  return Object.freeze({
    body,
    rises: at(true),
    sets: at(false),
    state:
      found.events.length > 0
        ? 'rises or sets'
        : found.startsAbove
          ? 'above the horizon throughout'
          : 'below the horizon throughout',
  });
}

/** Twilights by the Sun's centre, degrees below the horizon (USNO definitions). */
export const TWILIGHT_DEG = Object.freeze({ civil: 6, nautical: 12, astronomical: 18 });
/** How far the Sun is down: civil 6°, nautical 12°, astronomical 18°. */
export type TwilightKind = keyof typeof TWILIGHT_DEG;

/** Beginnings (morning) and ends (evening) of a twilight. */
export interface Twilight {
  readonly kind: TwilightKind;
  /** When it begins (morning), in order, to the whole second. */
  readonly begins: readonly Instant[];
  /** When it ends (evening), in order, to the whole second. */
  readonly ends: readonly Instant[];
  /** Whether it begins or ends at all; at high latitudes the Sun may stay above or below. */
  readonly state: 'begins or ends' | 'Sun never so low' | 'Sun never so high';
}

/**
 * When the Sun's centre is 6°, 12° or 18° below the horizon, to the whole second. Source: definitions of the USNO.
 * @param from start of the window
 * @throws OutOfRangeError for a window of more than 31 days or none, or outside the years 1600 to 2200
 */
export function twilight(
  kind: TwilightKind,
  position: Position,
  from: Instant,
  options: EventWindow = {},
): Twilight {
  const found = sunAt(-TWILIGHT_DEG[kind], position, from, options);
  const at = (rising: boolean) =>
    found.events.filter((e) => e.rising === rising).map((e) => e.instant);
  return Object.freeze({
    kind,
    begins: at(true),
    ends: at(false),
    state:
      found.events.length > 0
        ? 'begins or ends'
        : found.startsAbove
          ? 'Sun never so low'
          : 'Sun never so high',
  });
}

/**
 * When the Sun's centre passes an altitude (seen from sea level, no refraction), to the whole second.
 * @param altDeg degrees, below the horizon negative
 * @param from start of the window
 * @returns the passages, rising or falling, and whether the window starts with the Sun above it
 * @throws OutOfRangeError for a window of more than 31 days or none, or outside the years 1600 to 2200
 */
export function sunAt(
  altDeg: number,
  position: Position,
  from: Instant,
  options: EventWindow = {},
) {
  return eventsOf('Sun', position, from, options, (t) => t.altDeg - altDeg);
}

/** Upper and lower transits. */
export interface MeridianPassage {
  readonly body: BodyName;
  /** Transits on the observer’s meridian, in order, to the whole second. */
  readonly upper: readonly Instant[];
  /** Transits on the opposite meridian, in order, to the whole second. */
  readonly lower: readonly Instant[];
}

/**
 * When a body crosses the meridian: LHA 0° (upper) and 180° (lower), to the whole second.
 * @param from start of the window
 * @throws OutOfRangeError for a window of more than 31 days or none, or outside the years 1600 to 2200
 */
export function meridianPassage(
  body: BodyName,
  position: Position,
  from: Instant,
  options: EventWindow = {},
): MeridianPassage {
  const find = (lha: number) =>
    // The sine changes sign at both transits: rising at the one asked for.
    eventsOf(body, position, from, options, (t) => Math.sin(((t.lhaDeg - lha) * Math.PI) / 180))
      .events.filter((e) => e.rising)
      .map((e) => e.instant);
  return Object.freeze({ body, upper: find(0), lower: find(180) });
}

function eventsOf(
  body: BodyName,
  position: Position,
  from: Instant,
  { span = Duration.days(1) }: EventWindow,
  value: (t: Topocentric) => number,
) {
  if (!(span.days > 0 && span.days <= MAX_SPAN_DAYS))
    throw new OutOfRangeError(
      `a window runs over more than none and at most ${MAX_SPAN_DAYS} days, not ${span.days}`,
    );
  const f = (seconds: number) =>
    value(
      topocentric(
        body,
        position.latDeg,
        position.lonDeg,
        from.tt + seconds / 86400,
        from.ut1 + seconds / 86400,
      ),
    );
  const found = crossings(f, 0, span.seconds, Math.ceil(STEPS_PER_DAY * span.days), ACCURACY_S);
  return {
    startsAbove: f(0) >= 0,
    // To the whole second: what refraction and the sea do to the horizon is more.
    events: found.map((c) => ({
      instant: from.plus(Duration.seconds(Math.round(c.t))),
      rising: c.rising,
    })),
  };
}
