import {
  altitudeInputOf,
  Angle,
  apparentPlace,
  bodyNames,
  computedAltitude,
  Duration,
  findSlips,
  Instant,
  isSolarSystem,
  Length,
  Position,
  sextantReadingFor,
  sight,
  sightPlace,
  slipRule,
  type BodyName,
  type Random,
  type Sight,
  type SlipFinding,
  type SlipKind,
} from 'cocked-hat';

/** Slips that can befall one reading of a sight that has several. */
export const READING_KINDS: readonly SlipKind[] = [
  'whole degree',
  'ten minutes',
  'thirty minutes',
  'minute of time',
];
const BODIES = 5;
const APART_S = 40;
/** Scatter of one reading and what a round's sights share, minutes of arc (1σ): what the library takes for granted. */
export const SCATTER_ARCMIN = Math.hypot(0.6, 0.1);
export const SHARED_ARCMIN = Math.hypot(0.2, 0.2, 0.4);
const APART_DEG = 35;

export const stars = bodyNames.filter((b) => !isSolarSystem(b));

interface Planted {
  readonly kind: SlipKind;
  readonly body: number;
  readonly reading: number;
  readonly sign: 1 | -1;
}
interface Sky {
  readonly place: Position;
  readonly start: Instant;
  readonly bodies: readonly BodyName[];
}

export const altAz = (place: Position, body: BodyName, at: Instant) => {
  const { gha, declination } = apparentPlace(body, at);
  return computedAltitude(place, gha, declination);
};

/** A place and a time at which five stars stand between 15° and 65°, no two within 35° in azimuth. */
export function sky(rng: Random): Sky {
  for (;;) {
    const sign = rng.uniform() < 0.5 ? -1 : 1;
    const place = Position.degrees(sign * 50 * rng.uniform(), 340 * rng.uniform() - 170);
    const start = Instant.utc('2027-01-01 00:00:00 UTC').plus(
      Duration.seconds(Math.floor(300 * 86400 * rng.uniform())),
    );
    const taken: { body: BodyName; azDeg: number }[] = [];
    for (const body of stars) {
      const { altitude, azimuth } = altAz(place, body, start);
      const near = taken.some(
        (t) => Math.abs(((azimuth.degrees - t.azDeg + 540) % 360) - 180) < APART_DEG,
      );
      if (altitude.degrees > 15 && altitude.degrees < 65 && !near)
        taken.push({ body, azDeg: azimuth.degrees });
    }
    if (taken.length >= BODIES)
      return { place, start, bodies: taken.slice(0, BODIES).map((t) => t.body) };
  }
}

/** A round of five stars at one place, so many readings of each, one of them with a slip. @param noise its size: 1, or 0 for none */
function round(
  rng: Random,
  readings: number,
  planted: Planted | undefined,
  noise: number,
): { sights: Sight[]; dr: Position } {
  const { place, start, bodies } = sky(rng);
  const shared = noise * SHARED_ARCMIN * rng.normal();
  const sights = bodies.map((body, b) => {
    const times = Array.from({ length: readings }, (_, r) =>
      start.plus(Duration.seconds(b * 180 + r * APART_S)),
    );
    const read = times.map((at, r) => {
      const plain = sight({ ...FIELDS, body, reading: Angle.zero, time: at, dr: place });
      const error = noise * SCATTER_ARCMIN * rng.normal() + shared;
      const { altitude } = altAz(place, body, at);
      const input = altitudeInputOf(plain, sightPlace(plain));
      const slip = planted?.body === b && planted.reading === r ? planted : undefined;
      const arc = sextantReadingFor(altitude.degrees + error / 60, input) * 60;
      const arcmin = arc + (slip ? slip.sign * (ARC[slip.kind] ?? 0) : 0);
      const late = slip?.kind === 'minute of time' ? 60 * slip.sign : 0;
      return {
        reading: Angle.arcminutes(Math.round(arcmin * 10) / 10),
        time: at.plus(Duration.seconds(late)),
      };
    });
    return sight({
      ...FIELDS,
      body,
      reading: read.map((r) => r.reading),
      time: read.map((r) => r.time),
      dr: place,
    });
  });
  return { sights, dr: place };
}
export const FIELDS = { eyeHeight: Length.metres(2.6), indexError: '1.4′ off the arc' } as const;
const ARC: Partial<Record<SlipKind, number>> = {
  'whole degree': 60,
  'ten minutes': 10,
  'thirty minutes': 30,
};

export interface ReadingRow {
  readonly kind: SlipKind | 'clean';
  readonly readings: number;
  readonly trials: number;
  /** Rounds in which, without any scatter, the reading and its slip would have 95 % or more. */
  readonly identifiable: number;
  /** Among these: reading and slip named first; the sight, whatever of it; the round called clean. */
  readonly first: number;
  readonly sight: number;
  readonly clean: number;
  /** Of all rounds not called clean, by the slip named first: how many, the sum of the probabilities claimed, how many right. */
  readonly named: ReadonlyMap<SlipFinding['kind'], Named>;
}
export interface Named {
  readonly rounds: number;
  readonly claimed: number;
  readonly right: number;
}

/**
 * How often a slip is right where it is named, and the mean probability then claimed. Each kind made counts as often as it
 * usually happens: taken among rounds with one kind alone every mistake would be of one sort, and odds that are right on the
 * whole would seem too bold for one kind and too timid for its double.
 */
export function rightWhereNamed(
  rows: readonly ReadingRow[],
  kind: SlipKind,
): { right: number; claimed: number } {
  let [rounds, claimed, right] = [0, 0, 0];
  for (const { kind: made, trials, named } of rows) {
    const n = named.get(kind);
    if (made === 'clean' || !n) continue;
    const weight = slipRule(made).frequency / trials;
    rounds += weight * n.rounds;
    claimed += weight * n.claimed;
    right += weight * n.right;
  }
  return { right: right / rounds, claimed: claimed / rounds };
}

/** Rounds with one slip of a kind in one reading, or none, and what the engine puts first. */
export function measureReadings(
  kind: SlipKind | 'clean',
  readings: number,
  trials: number,
  makeRandom: (seed: number) => Random,
): ReadingRow {
  const row = { identifiable: 0, first: 0, sight: 0, clean: 0 };
  const named = new Map<SlipFinding['kind'], Named>();
  for (let i = 0; i < trials; i++) {
    const seed = 104729 * i + 17 * readings + READING_KINDS.indexOf(kind as SlipKind);
    const rng = makeRandom(seed);
    const planted: Planted | undefined =
      kind === 'clean'
        ? undefined
        : {
            kind,
            body: rng.below(BODIES),
            reading: rng.below(readings),
            sign: rng.uniform() < 0.5 ? 1 : -1,
          };
    const search = (noise: number) => {
      const { sights, dr } = round(makeRandom(seed + 1), readings, planted, noise);
      const about = (f: SlipFinding) => planted !== undefined && f.sight === sights[planted.body];
      const right = (f: SlipFinding) =>
        about(f) && f.kind === kind && f.reading === (planted?.reading ?? 0) + 1;
      return { report: findSlips(sights, { dr }), about, right };
    };
    const real = search(1);
    const { first } = real.report;
    const isRight = planted ? real.right(first) : real.report.clean;
    if (!real.report.clean) {
      const so = named.get(first.kind) ?? { rounds: 0, claimed: 0, right: 0 };
      named.set(first.kind, {
        rounds: so.rounds + 1,
        claimed: so.claimed + first.probability,
        right: so.right + (isRight ? 1 : 0),
      });
    }
    if (planted) {
      const exact = search(0);
      const share = exact.report.findings.reduce(
        (s, f) => s + (exact.right(f) ? f.probability : 0),
        0,
      );
      if (share < 0.95) continue;
    }
    row.identifiable += 1;
    if (isRight) row.first += 1;
    if (real.about(first)) row.sight += 1;
    if (real.report.clean) row.clean += 1;
  }
  return { kind, readings, trials, ...row, named };
}
