import { fix, type Fix, type FixOptions } from '../../core/fix/index.js';
import { altitudeKernel, type AltitudeObservation } from '../../core/line/index.js';
import { apparentPlace, bodyNames, type BodyName } from '../../core/sky/index.js';
import type { Position } from '../../core/units/index.js';
import { Angle, type Instant } from '../../core/units/index.js';
import type { ErrorCause } from '../../core/working/index.js';
import { decodeObservation, decodeFixOptions, type FixInputs } from '../chart/chart-inputs.js';

/** A body that could be taken next, and where it stands. */
export interface Candidate {
  readonly body: string;
  readonly ghaDeg: number;
  readonly decDeg: number;
}

/** How much one cause of error has to do with the fix. */
export interface CauseShare {
  readonly cause: string;
  /** Root mean square over the sights, minutes of arc. */
  readonly sigmaArcmin: number;
  readonly isShared: boolean;
  /** Part of the variance of the position (north and east together), 0 to 1. */
  readonly share: number;
}

export interface LevelRegion {
  readonly level: number;
  readonly semiMajorNm: number;
  readonly semiMinorNm: number;
  readonly axisDeg: number;
  readonly outline: readonly Position[];
}

/** What one more sight would make of the region. */
export interface Gain {
  readonly body: string;
  readonly altitudeDeg: number;
  readonly azimuthDeg: number;
  readonly semiMajorNm: number;
  readonly semiMinorNm: number;
  /** Area of the region, in parts of what it is without that sight. */
  readonly areaFactor: number;
}

/** Factors on the standard deviations of causes, as a reader tries them out. */
export type CauseScale = Readonly<Record<string, number>>;

const LEVELS = [0.5, 0.68, 0.9, 0.95, 0.99];
/** Below, refraction is doubtful; above, the body is hard to bring down: common practice, no source. */
const LEAST_ALTITUDE_DEG = 15;
const GREATEST_ALTITUDE_DEG = 75;
/** Before the Sun is this low no star can be seen: common practice, no source. */
const STARS_WHEN_SUN_BELOW_DEG = -3;

/** Bodies that stand well for a sight at that place and time. Reads the ephemeris. */
export function candidatesAt(place: Position, instant: Instant): Candidate[] {
  const at = (body: BodyName) => {
    const { gha, declination } = apparentPlace(body, instant);
    const [ghaDeg, decDeg] = [gha.degrees, declination.degrees];
    const { altDeg } = altitudeKernel(place.latDeg, place.lonDeg, ghaDeg, decDeg);
    return { body, ghaDeg, decDeg, altDeg };
  };
  const isDay = at('Sun').altDeg > STARS_WHEN_SUN_BELOW_DEG;
  const bodies: readonly BodyName[] = isDay
    ? ['Sun', 'Moon', 'Venus']
    : bodyNames.filter((body) => body !== 'Sun');
  return bodies
    .map(at)
    .filter((c) => c.altDeg >= LEAST_ALTITUDE_DEG && c.altDeg <= GREATEST_ALTITUDE_DEG)
    .map(({ body, ghaDeg, decDeg }) => ({ body, ghaDeg, decDeg }));
}

const scaled = (causes: readonly ErrorCause[], scale: CauseScale): ErrorCause[] =>
  causes.map((c) => ({ ...c, sigmaArcmin: c.sigmaArcmin * (scale[c.cause] ?? 1) }));

/** The fix whose uncertainty is looked into, worked out again as causes are scaled. */
export class UncertaintyModel {
  private constructor(
    private readonly observations: readonly AltitudeObservation[],
    private readonly options: FixOptions,
    readonly candidates: readonly Candidate[],
  ) {}

  /** @throws RangeError, ViewDataError when the inputs are not those of a fix */
  static from(inputs: FixInputs, candidates: readonly Candidate[]): UncertaintyModel {
    const { sigma, ...options } = decodeFixOptions(inputs.options);
    const observations = inputs.observations.map(decodeObservation);
    if (sigma === undefined) return new UncertaintyModel(observations, options, candidates);
    // A sigma stated for the whole round takes the place of every budget.
    const stated = { cause: 'stated', sigmaArcmin: (sigma as Angle).arcminutes };
    const all = observations.map((o) => ({ ...o, causes: [stated] }));
    return new UncertaintyModel(all, options, candidates);
  }

  /** Causes named by any of the sights. */
  get causes(): string[] {
    return [...new Set(this.observations.flatMap((o) => o.causes.map((c) => c.cause)))];
  }

  fix(scale: CauseScale = {}): Fix {
    return fix(this.scaledObservations(scale), this.options);
  }

  levels(found: Fix): LevelRegion[] {
    return LEVELS.map((level) => {
      const region = found.region(level);
      return {
        level,
        semiMajorNm: region.semiMajor.nauticalMiles,
        semiMinorNm: region.semiMinor.nauticalMiles,
        axisDeg: region.axis.degrees,
        outline: region.polygon,
      };
    });
  }

  /**
   * Each cause's part of the variance of the position. How far a minute in each altitude moves the fix is found by
   * moving it; errors that sights share move the fix together.
   */
  shares(scale: CauseScale = {}): CauseShare[] {
    const observations = this.scaledObservations(scale);
    const options: FixOptions = { ...this.options, method: 'ellipse' };
    const base = fix(observations, options);
    const gains = observations.map((_, i) => {
      const nudged = observations.map((o, k) =>
        k === i ? { ...o, observed: o.observed.plus(Angle.arcminutes(NUDGE_ARCMIN)) } : o,
      );
      return displacement(base.position, fix(nudged, options).position);
    });
    const parts = this.causes.map((cause) => causePart(cause, observations, gains));
    parts.push(otherPart(base, parts));
    const whole = parts.reduce((sum, p) => sum + p.variance, 0);
    return parts
      .map(({ variance, ...part }) => ({ ...part, share: whole > 0 ? variance / whole : 0 }))
      .filter((s) => s.share > 1e-4 || s.sigmaArcmin > 0)
      .sort((a, b) => b.share - a.share);
  }

  /** What one more sight of each candidate would do, the best first; its errors are those of the sights there are. */
  gains(scale: CauseScale = {}): Gain[] {
    const observations = this.scaledObservations(scale);
    const options: FixOptions = { ...this.options, method: 'ellipse' };
    const base = fix(observations, options);
    const before = base.region();
    const area = before.semiMajor.nauticalMiles * before.semiMinor.nauticalMiles;
    const model = observations.at(-1);
    if (!model || !before.bounded) return [];
    const { latDeg, lonDeg } = base.position;
    return this.candidates
      .map(({ body, ghaDeg, decDeg }): Gain => {
        const { altDeg, azDeg } = altitudeKernel(latDeg, lonDeg, ghaDeg, decDeg);
        const sight: AltitudeObservation = {
          body,
          instant: base.instant,
          observed: Angle.degrees(altDeg),
          gha: Angle.degrees(ghaDeg),
          declination: Angle.degrees(decDeg),
          causes: model.causes,
          ...(model.watch ? { watch: model.watch } : {}),
        };
        const after = fix([...observations, sight], options).region();
        const [a, b] = [after.semiMajor.nauticalMiles, after.semiMinor.nauticalMiles];
        return {
          body,
          altitudeDeg: altDeg,
          azimuthDeg: azDeg,
          semiMajorNm: a,
          semiMinorNm: b,
          areaFactor: area > 0 ? (a * b) / area : 1,
        };
      })
      .sort((a, b) => a.areaFactor - b.areaFactor);
  }

  private scaledObservations(scale: CauseScale): AltitudeObservation[] {
    return this.observations.map((o) => ({ ...o, causes: scaled(o.causes, scale) }));
  }
}

/** What the budgets of the sights do not hold: the watch and the run between the sights. */
function otherPart(found: Fix, parts: readonly { variance: number }[]) {
  const c = found.covariance;
  const whole = c ? (c[0]?.[0] ?? 0) + (c[1]?.[1] ?? 0) : 0;
  const known = parts.reduce((sum, p) => sum + p.variance, 0);
  const variance = Math.max(0, whole - known);
  return { cause: 'watch, course and speed', sigmaArcmin: 0, isShared: true, variance };
}

const NUDGE_ARCMIN = 0.05;

/** Minutes of arc north and east for a minute in the altitude. */
function displacement(from: Position, to: Position): readonly [north: number, east: number] {
  const east = (to.lonDeg - from.lonDeg) * Math.cos((from.latDeg * Math.PI) / 180);
  return [((to.latDeg - from.latDeg) * 60) / NUDGE_ARCMIN, (east * 60) / NUDGE_ARCMIN];
}

type Vector = readonly [number, number];

function causePart(
  cause: string,
  observations: readonly AltitudeObservation[],
  gains: readonly Vector[],
) {
  let [variance, squares, isShared] = [0, 0, false];
  const shared = new Map<string, Vector>();
  observations.forEach((o, i) => {
    const [north, east] = gains[i] ?? [0, 0];
    for (const c of o.causes) {
      if (c.cause !== cause) continue;
      squares += c.sigmaArcmin ** 2;
      if (c.sharedKey === undefined) variance += c.sigmaArcmin ** 2 * (north ** 2 + east ** 2);
      else {
        isShared = true;
        const [n, e] = shared.get(c.sharedKey) ?? [0, 0];
        shared.set(c.sharedKey, [n + c.sigmaArcmin * north, e + c.sigmaArcmin * east]);
      }
    }
  });
  for (const [n, e] of shared.values()) variance += n ** 2 + e ** 2;
  return {
    cause,
    sigmaArcmin: Math.sqrt(squares / Math.max(1, observations.length)),
    isShared,
    variance,
  };
}
