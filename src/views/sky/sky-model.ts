import { rhumbDestination, topocentric } from '../../core/line/index.js';
import {
  bestSet,
  bodyUp,
  horizonWindows,
  type BestSet,
  type BestSetOptions,
  type BodiesUpOptions,
  type BodyUp,
  type HorizonWindow,
} from '../../core/plan/index.js';
import { bodyNames, type BodyName } from '../../core/sky/index.js';
import { Angle, Instant, Length, OutOfRangeError, Position } from '../../core/units/index.js';
import { ephemerisFromPieces, withEphemeris } from '../inputs/ephemeris-pieces.js';
import { DAY_MS, MARGIN_MS, type SkyData } from './sky-data.js';

/** What a reader may move. */
export interface SkySettings {
  readonly atMs: number;
  readonly count: number;
  readonly eyeHeightM: number;
  readonly indexErrorArcmin: number;
  readonly lowestDeg: number;
  readonly highestDeg: number;
  /** Bodies that are not to be taken: behind a cloud, behind the sail. */
  readonly hidden: readonly BodyName[];
}

/** What the light allows: only Sun, Moon and Venus; a sharp horizon but few stars; stars and horizon; stars but no horizon. */
export type Light = 'day' | 'bright' | 'both' | 'dark';

/** A body above the horizon. */
export interface SkyBody {
  readonly body: BodyName;
  readonly altDeg: number;
  readonly azDeg: number;
  readonly presetDeg: number;
  /** `Moon, upper limb`: what the preset is for. */
  readonly name: string;
  readonly magnitude: number | null;
  readonly isInReach: boolean;
  /** Where it will stand in `AHEAD_MIN` minutes. */
  readonly ahead: { readonly altDeg: number; readonly azDeg: number };
}

/** The sky at one moment. */
export interface SkyMoment {
  readonly instant: Instant;
  readonly dr: Position;
  readonly sunAltDeg: number;
  readonly sunAzDeg: number;
  readonly light: Light;
  /** Above the horizon and not outshone, by azimuth. */
  readonly bodies: readonly SkyBody[];
}

/** The set and its fix, or why there is none. */
export type SetFound =
  | { readonly set: BestSet; readonly order: readonly BodyName[] }
  | { readonly set: null; readonly problem: string };

export const AHEAD_MIN = 20;
const STARS_SHOW_DEG = -6;
const HORIZON_LOST_DEG = -12;
const KN_TO_M_PER_MS = 1852 / 3_600_000;
/** Seen while the Sun is up. */
const BY_DAY: ReadonlySet<BodyName> = new Set(['Sun', 'Moon', 'Venus']);

export const startSettings = (data: SkyData): SkySettings => ({
  atMs: data.atMs,
  count: data.count,
  eyeHeightM: data.eyeHeightM,
  indexErrorArcmin: data.indexErrorArcmin,
  lowestDeg: data.lowestDeg,
  highestDeg: data.highestDeg,
  hidden: [],
});

/** The sky of one day above a DR, from the pieces of the ephemeris that the data carry. */
export class SkyModel {
  readonly firstMs: number;
  readonly lastMs: number;
  private readonly source;

  constructor(readonly data: SkyData) {
    this.firstMs = data.noonMs;
    this.lastMs = data.noonMs + DAY_MS;
    this.source = data.ephemeris ? ephemerisFromPieces(data.ephemeris) : undefined;
  }

  /** @throws OutOfRangeError outside the day that the view holds places for, in words */
  private instantAt(ms: number, marginMs = MARGIN_MS): Instant {
    if (!(ms >= this.firstMs - marginMs && ms <= this.lastMs + marginMs))
      throw new OutOfRangeError(
        `this view holds the sky from ${Instant.fromEpochMs(this.firstMs)} to ${Instant.fromEpochMs(this.lastMs)}: for another day call skyView again with that time`,
      );
    return Instant.fromEpochMs(ms);
  }

  /** The DR run on to a moment. */
  drAt(ms: number): Position {
    const { latDeg, lonDeg, courseDeg, speedKn, atMs } = this.data;
    const start = Position.degrees(latDeg, lonDeg);
    if (speedKn === 0 || ms === atMs) return start;
    const run = Length.metres(speedKn * KN_TO_M_PER_MS * (ms - atMs));
    return rhumbDestination(start, Angle.degrees(courseDeg), run);
  }

  private optionsOf(s: SkySettings): BestSetOptions {
    const { data } = this;
    const thought = data.bodies.length > 0 ? data.bodies : bodyNames;
    return {
      bodies: thought.filter((b) => !s.hidden.includes(b)),
      lowest: Angle.degrees(s.lowestDeg),
      highest: Angle.degrees(s.highestDeg),
      eyeHeight: Length.metres(s.eyeHeightM),
      indexError: Angle.arcminutes(s.indexErrorArcmin),
      count: s.count,
      sigma: Angle.arcminutes(data.sigmaArcmin),
      sharedSigma: Angle.arcminutes(data.sharedArcmin),
      moonGlare: Angle.degrees(data.moonGlareDeg),
      faintest: data.faintest,
      ...(data.horizon.length > 0
        ? {
            horizon: data.horizon.map(({ fromDeg, toDeg }) => ({
              from: Angle.degrees(fromDeg),
              to: Angle.degrees(toDeg),
            })),
          }
        : {}),
    };
  }

  /** Altitude of the Sun's centre without refraction, and its azimuth, degrees. */
  sunAt(ms: number): { readonly altDeg: number; readonly azDeg: number } {
    const at = this.instantAt(ms);
    const dr = this.drAt(ms);
    return withEphemeris(this.source, () =>
      topocentric('Sun', dr.latDeg, dr.lonDeg, at.tt, at.ut1),
    );
  }

  /** @throws OutOfRangeError outside the day */
  moment(s: SkySettings): SkyMoment {
    const instant = this.instantAt(s.atMs, 0);
    const dr = this.drAt(s.atMs);
    const sun = this.sunAt(s.atMs);
    const light = lightAt(sun.altDeg);
    const options = this.optionsOf({ ...s, hidden: [] });
    const laterMs = s.atMs + AHEAD_MIN * 60_000;
    const [later, there] = [this.instantAt(laterMs), this.drAt(laterMs)];
    const bodies = withEphemeris(this.source, () =>
      (options.bodies ?? []).flatMap((body): SkyBody[] => {
        if (light === 'day' && !BY_DAY.has(body)) return [];
        const now = bodyUp(body, dr, instant, options);
        if (!(now.altitude.degrees > 0)) return [];
        return [skyBody(now, bodyUp(body, there, later, options), s)];
      }),
    );
    bodies.sort((a, b) => a.azDeg - b.azDeg);
    return { instant, dr, sunAltDeg: sun.altDeg, sunAzDeg: sun.azDeg, light, bodies };
  }

  /** When stars and horizon are seen together, at the DR of a moment. */
  windows(ms: number): HorizonWindow[] {
    const from = this.instantAt(this.firstMs);
    return withEphemeris(this.source, () => horizonWindows(this.drAt(ms), from));
  }

  /** The best set of those not hidden, in the order to take them; or a sentence that says why there is none. */
  bestSet(s: SkySettings): SetFound {
    const at = this.instantAt(s.atMs, 0);
    try {
      const set = withEphemeris(this.source, () =>
        bestSet(this.drAt(s.atMs), at, this.optionsOf(s)),
      );
      return { set, order: eastFirst(set.bodies) };
    } catch (error) {
      if (!(error instanceof OutOfRangeError)) throw error;
      return { set: null, problem: error.message };
    }
  }

  /** What to set for a body at a moment, degrees; NaN when it is not above the horizon. The Moon's limb is that of `s.atMs`. */
  presetAt(body: BodyName, ms: number, s: SkySettings): number {
    const up = withEphemeris(this.source, () => {
      const options = this.optionsOf(s);
      const bodyAt = (at: number, more: BodiesUpOptions) =>
        bodyUp(body, this.drAt(at), this.instantAt(at), { ...options, ...more });
      if (body !== 'Moon') return bodyAt(ms, {});
      return bodyAt(ms, { moonLimb: bodyAt(s.atMs, {}).limb === 'upper' ? 'upper' : 'lower' });
    });
    return up.altitude.degrees > 0 ? up.preset.degrees : NaN;
  }
}

export function lightAt(sunAltDeg: number): Light {
  if (sunAltDeg > 0) return 'day';
  if (sunAltDeg > STARS_SHOW_DEG) return 'bright';
  return sunAltDeg > HORIZON_LOST_DEG ? 'both' : 'dark';
}

function skyBody(now: BodyUp, later: BodyUp, s: SkySettings): SkyBody {
  const altDeg = now.altitude.degrees;
  return {
    body: now.body,
    altDeg,
    azDeg: now.azimuth.degrees,
    presetDeg: now.preset.degrees,
    name: now.name,
    magnitude: now.magnitude,
    isInReach: altDeg >= s.lowestDeg && altDeg <= s.highestDeg,
    ahead: { altDeg: later.altitude.degrees, azDeg: later.azimuth.degrees },
  };
}

/**
 * East first: in the evening its stars show first and its horizon goes first, in the morning its horizon shows first and its
 * stars go first (common practice, no source).
 */
const eastFirst = (bodies: readonly BodyUp[]): BodyName[] =>
  [...bodies]
    .sort((a, b) => Math.sin(b.azimuth.radians) - Math.sin(a.azimuth.radians))
    .map((b) => b.body);
