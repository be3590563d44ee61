import { Angle } from '../units/angle.js';
import { OutOfRangeError } from '../units/errors.js';
import type { Instant } from '../units/instant.js';
import type { BodyName } from '../sky/body-names.js';
import { apparentPlace } from '../sky/apparent-place.js';
import type { Position } from '../units/position.js';
import { bodiesUp, bodyUp, type BodiesUpOptions, type BodyUp } from './bodies-up.js';

/** What the choice of bodies may be told. */
export interface BestSetOptions extends BodiesUpOptions {
  /** How many bodies, 3 to 7; 5 unless told. */
  readonly count?: number;
  /** One standard deviation of an altitude, and of the error that all share (index, dip). */
  readonly sigma?: Angle;
  /** One standard deviation of the error that all share; 1′ unless told. */
  readonly sharedSigma?: Angle;
  /** Leave out bodies within this of a Moon that is up and more than a quarter lit; 15° unless told. */
  readonly moonGlare?: Angle;
  /** Arcs of the horizon that can be used, true bearings clockwise; all of it unless told. */
  readonly horizon?: readonly { readonly from: Angle; readonly to: Angle }[];
  /** Bodies fainter than this are left out; 2.5 unless told. */
  readonly faintest?: number;
}

/** A set of bodies and the fix it would give. */
export class BestSet {
  constructor(
    readonly bodies: readonly BodyUp[],
    /** One standard deviation of the fix along its long and short axis, nautical miles. */
    readonly majorNm: number,
    readonly minorNm: number,
    /** Radial standard deviation, nautical miles: what the sets were ranked by. */
    readonly radialNm: number,
    /** Bodies that were in reach but left out, with the reason. */
    readonly leftOut: readonly { readonly body: BodyName; readonly reason: string }[],
    /** Where the long axis points, true, 0° to 180°. */
    readonly majorAzimuth: Angle,
  ) {
    Object.freeze(this);
  }
  /** The bodies, and the radial standard deviation of their fix in miles. */
  toString(): string {
    return `${this.bodies.map((b) => b.body).join(', ')}: ± ${this.radialNm.toFixed(1)} nm radial, 1σ`;
  }
}

const DEFAULTS = {
  count: 5,
  sigmaArcmin: 0.7,
  sharedArcmin: 1,
  glareDeg: 15,
  faintest: 2.5,
  litFraction: 0.25,
};
const LEAST_COUNT = 3;
/** More candidates than this and the sets run into millions: the brightest are taken. */
const MOST_CANDIDATES = 20;

const inReach = (names: readonly string[]) =>
  names.length === 0
    ? 'no body is in reach'
    : `only ${names.join(', ')} ${names.length === 1 ? 'is' : 'are'} in reach`;

/**
 * The set of bodies whose fix has the least radial variance, all sets tried: covariance of the position from the azimuths,
 * own and shared errors of the altitudes (least squares). The shared error makes sets all round the horizon win over one-sided ones.
 * @throws OutOfRangeError when the count is not 3–7 or fewer bodies than that are in reach
 */
export function bestSet(
  position: Position,
  instant: Instant,
  options: BestSetOptions = {},
): BestSet {
  const count = options.count ?? DEFAULTS.count;
  if (!(Number.isInteger(count) && count >= LEAST_COUNT && count <= 7))
    throw new OutOfRangeError(`a set has 3 to 7 bodies, not ${count}`);
  const { kept, leftOut } = candidatesOf(position, instant, options);
  if (kept.length < count)
    throw new OutOfRangeError(
      `${inReach(kept.map((b) => b.body))}, and a set wants ${count}: ${kept.length < LEAST_COUNT ? '' : 'ask for fewer, or '}widen the altitude limits or the horizon`,
    );
  const own = options.sigma?.arcminutes ?? DEFAULTS.sigmaArcmin;
  const shared = options.sharedSigma?.arcminutes ?? DEFAULTS.sharedArcmin;
  const rows = kept.map((b) => [Math.cos(b.azimuth.radians), Math.sin(b.azimuth.radians)] as const);
  let best: { indices: readonly number[]; trace: number; cov: Covariance } | null = null;
  for (const indices of subsets(kept.length, count)) {
    const cov = covarianceOf(
      indices.map((i) => rows[i] as readonly [number, number]),
      own,
      shared,
    );
    if (!cov) continue;
    const trace = cov.nn + cov.ee;
    if (!best || trace < best.trace - 1e-12) best = { indices: [...indices], trace, cov };
  }
  if (!best)
    throw new OutOfRangeError(
      'the bodies in reach all lie along one bearing: no set fixes a position',
    );
  const { cov } = best;
  const mean = (cov.nn + cov.ee) / 2;
  const half = Math.hypot((cov.nn - cov.ee) / 2, cov.ne);
  return new BestSet(
    best.indices.map((i) => kept[i] as BodyUp),
    Math.sqrt(mean + half),
    Math.sqrt(Math.max(mean - half, 0)),
    Math.sqrt(best.trace),
    leftOut,
    // An axis has no sense of direction: half a turn is the same.
    Angle.degrees(Angle.radians(Math.atan2(2 * cov.ne, cov.nn - cov.ee)).normalized().degrees / 2),
  );
}

interface Covariance {
  readonly nn: number;
  readonly ne: number;
  readonly ee: number;
}

/** Inverse of JᵀC⁻¹J with C = own² I + shared² 11ᵀ, in closed form (Sherman–Morrison). */
function covarianceOf(
  rows: readonly (readonly [number, number])[],
  own: number,
  shared: number,
): Covariance | null {
  const n = rows.length;
  let [nn, ne, ee, sn, se] = [0, 0, 0, 0, 0];
  for (const [c, s] of rows) {
    nn += c * c;
    ne += c * s;
    ee += s * s;
    sn += c;
    se += s;
  }
  const k = shared ** 2 / (own ** 2 + n * shared ** 2);
  const [a, b, d] = [nn - k * sn * sn, ne - k * sn * se, ee - k * se * se].map(
    (x) => x / own ** 2,
  ) as [number, number, number];
  const det = a * d - b * b;
  return det > 1e-12 * (a + d) ** 2 ? { nn: d / det, ne: -b / det, ee: a / det } : null;
}

function* subsets(n: number, k: number): Generator<readonly number[]> {
  const pick = Array.from({ length: k }, (_, i) => i);
  for (;;) {
    yield pick;
    let i = k - 1;
    while (i >= 0 && pick[i] === n - k + i) i--;
    if (i < 0) return;
    pick[i] = (pick[i] as number) + 1;
    for (let j = i + 1; j < k; j++) pick[j] = (pick[j - 1] as number) + 1;
  }
}

function candidatesOf(position: Position, instant: Instant, options: BestSetOptions) {
  const leftOut: { body: BodyName; reason: string }[] = [];
  const moon = bodyUp('Moon', position, instant, options);
  const lit = apparentPlace('Moon', instant).phase ?? 1;
  const glare = options.moonGlare?.degrees ?? DEFAULTS.glareDeg;
  const sunUp = bodyUp('Sun', position, instant).altitude.degrees > 0;
  let kept = bodiesUp(position, instant, options).filter((b) => {
    const reason = unfit(b);
    if (reason) leftOut.push({ body: b.body, reason });
    return !reason;
  });
  if (kept.length > MOST_CANDIDATES) {
    const bright = [...kept]
      .sort((a, b) => (a.magnitude ?? 9) - (b.magnitude ?? 9))
      .slice(0, MOST_CANDIDATES);
    for (const b of kept)
      if (!bright.includes(b)) leftOut.push({ body: b.body, reason: 'brighter ones are enough' });
    kept = kept.filter((b) => bright.includes(b));
  }
  return { kept, leftOut };

  function unfit(b: BodyUp): string | null {
    const named = b.body === 'Sun' || b.body === 'Moon';
    if (sunUp && !named && b.body !== 'Venus') return 'the Sun is up';
    if (!named && b.magnitude !== null && b.magnitude > (options.faintest ?? DEFAULTS.faintest))
      return 'too faint';
    if (options.horizon && !options.horizon.some((arc) => within(b.azimuth, arc.from, arc.to)))
      return 'no horizon under it';
    const near = moon.altitude.degrees > 0 && lit > DEFAULTS.litFraction && b.body !== 'Moon';
    if (near && Math.abs(b.azimuth.minus(moon.azimuth).signed().degrees) < glare)
      return 'the Moon’s glare lies on the horizon under it';
    return null;
  }
}

function within(azimuth: Angle, from: Angle, to: Angle): boolean {
  const width = to.minus(from).normalized().degrees;
  return azimuth.minus(from).normalized().degrees <= width;
}
