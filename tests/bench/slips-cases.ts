import {
  Angle,
  apparentPlace,
  bodyNames,
  computedAltitude,
  Duration,
  findSlip,
  Instant,
  isSolarSystem,
  Length,
  observedAltitude,
  Position,
  sextantReadingFor,
  altitudeInputOf,
  sight,
  sightPlace,
  slipRules,
  type BodyName,
  type Random,
  type Sight,
  type SightFields,
  type SlipKind,
  type SlipReport,
} from 'cocked-hat';

export const SIGMA_ARCMIN = 0.7;
export type Outcome = SlipKind | 'clean' | 'unexplained';
export const KINDS: readonly SlipKind[] = slipRules.map((r) => r.kind);

interface Trial {
  readonly place: Position;
  readonly entered: Sight;
  readonly worked: Angle;
}

const pick = <T>(rng: Random, list: readonly T[]): T => list[rng.below(list.length)] as T;
const signOf = (rng: Random): 1 | -1 => (rng.uniform() < 0.5 ? -1 : 1);
const stars = bodyNames.filter((b) => !isSolarSystem(b));

function bodyFor(rng: Random, kind: Outcome): BodyName {
  if (kind === 'parallax forgotten') return 'Moon';
  if (kind === 'wrong limb') return pick(rng, ['Sun', 'Moon']);
  if (kind === 'another star' || kind === 'body misnamed') return pick(rng, stars);
  return pick(rng, [
    'Sun',
    'Sun',
    'Moon',
    'Venus',
    'Jupiter',
    ...Array.from({ length: 4 }, () => pick(rng, stars)),
  ]);
}

/** A place, a time and a body that stands between 15° and 65°. */
function scene(rng: Random, kind: Outcome) {
  for (;;) {
    const lat = signOf(rng) * (8 + 45 * rng.uniform());
    const lon = signOf(rng) * (8 + 165 * rng.uniform());
    const place = Position.degrees(lat, lon);
    const instant = Instant.utc('2027-01-01 00:00:00 UTC').plus(
      Duration.seconds(Math.floor(300 * 86400 * rng.uniform())),
    );
    const body = bodyFor(rng, kind);
    const { gha, declination } = apparentPlace(body, instant);
    const { altitude } = computedAltitude(place, gha, declination);
    if (altitude.degrees > 15 && altitude.degrees < 65) return { place, instant, body, altitude };
  }
}

/** Another star whose distance from the body is in this range, degrees: clear of 20°, where neighbours end. */
function otherStar(
  rng: Random,
  body: BodyName,
  instant: Instant,
  [least, most]: readonly [number, number],
): BodyName | null {
  const here = apparentPlace(body, instant);
  const near = stars.filter((name) => {
    if (name === body) return false;
    const there = apparentPlace(name, instant);
    const under = Position.degrees(here.declination.degrees, -here.gha.degrees);
    const distance = 90 - computedAltitude(under, there.gha, there.declination).altitude.degrees;
    return distance > least && distance < most;
  });
  return near.length ? pick(rng, near) : null;
}

/** One sight at a known place with one slip (or none). @param noiseArcmin error of the altitude itself */
function trial(rng: Random, kind: Outcome, noiseArcmin: number): Trial | null {
  const { place, instant, body, altitude } = scene(rng, kind);
  const disc = body === 'Sun' || body === 'Moon';
  const eyeM = Math.round((1.8 + 12 * rng.uniform()) * 10) / 10;
  const index = (signOf(rng) * (10 + rng.below(30))) / 10;
  const side = signOf(rng);
  const horizon = kind === 'not halved' ? 'artificial' : 'natural';
  const fields = (change: Partial<SightFields>): SightFields => ({
    body,
    ...(disc ? { limb: 'lower' as const } : {}),
    reading: Angle.zero,
    time: instant,
    horizon,
    ...(horizon === 'natural' ? { eyeHeight: Length.metres(eyeM) } : {}),
    indexError: Angle.arcminutes(index),
    sigma: Angle.arcminutes(SIGMA_ARCMIN),
    dr: place,
    ...change,
  });
  // The reading as truly taken, to the tenth, with the instrument as it truly is.
  const limb: Partial<SightFields> = kind === 'wrong limb' ? { limb: 'upper' } : {};
  const taken = sight(fields(limb));
  const readingDeg = sextantReadingFor(
    altitude.degrees + noiseArcmin / 60,
    altitudeInputOf(taken, sightPlace(taken)),
  );
  if (!Number.isFinite(readingDeg) || readingDeg > 125) return null;
  const reading = Angle.arcminutes(Math.round(readingDeg * 600) / 10);
  const shifted = (hours: number): Partial<SightFields> => ({
    reading,
    time: instant.plus(Duration.hours(hours)),
  });
  const zone = Math.round(place.lonDeg / 15);
  const change: Partial<SightFields> | null = (() => {
    switch (kind) {
      case 'index sign':
        return { reading, indexError: Angle.arcminutes(-index) };
      case 'whole degree':
        return { reading: reading.plus(Angle.degrees(side)) };
      case 'ten minutes':
        return { reading: reading.plus(Angle.arcminutes(10 * side)) };
      case 'thirty minutes':
        return { reading: reading.plus(Angle.arcminutes(30 * side)) };
      case 'minute of time':
        return shifted(side / 60);
      case 'hour of time':
        return shifted(side);
      case 'twelve hours':
        return shifted(12 * side);
      case 'date':
        return shifted(24 * side);
      case 'zone sign':
        return zone === 0 ? null : shifted(2 * zone);
      case 'height unit':
        return { reading, eyeHeight: Length.metres(side > 0 ? eyeM / 0.3048 : eyeM * 0.3048) };
      case 'another star':
      case 'body misnamed': {
        const range = kind === 'another star' ? ([0, 18] as const) : ([22, 180] as const);
        const other = otherStar(rng, body, instant, range);
        return other ? { reading, body: other } : null;
      }
      default:
        return { reading };
    }
  })();
  if (!change) return null;
  const entered = sight(fields(change));
  const working = observedAltitude(entered);
  const left = (rule: string) =>
    working.steps.find((s) => s.rule.includes(rule))?.correction ?? Angle.zero;
  const worked = (() => {
    switch (kind) {
      case 'dip forgotten':
        return working.value.minus(left('dip'));
      case 'refraction forgotten':
        return working.value.minus(left('refraction'));
      case 'parallax forgotten':
        return working.value.minus(left('parallax'));
      case 'not halved':
        return working.value.plus(Angle.degrees((readingDeg - index / 60) / 2));
      default:
        return working.value;
    }
  })();
  const stated =
    kind === 'latitude name'
      ? Position.degrees(-place.latDeg, place.lonDeg)
      : kind === 'longitude name'
        ? Position.degrees(place.latDeg, -place.lonDeg)
        : place;
  return {
    place: stated,
    entered,
    worked: Angle.arcminutes(Math.round(worked.arcminutes * 10) / 10),
  };
}

const report = (t: Trial): SlipReport => findSlip(t.entered, t.place, { worked: t.worked });

/**
 * Whether the slip can be told at all: with no scatter in the altitude, nothing else on the list would explain it as well
 * (odds of 19 to 1 or better for the kind that was made).
 */
const identifiable = (t: Trial, kind: SlipKind): boolean => report(t).probability(kind) >= 0.95;

export interface SlipRow {
  readonly kind: Outcome;
  readonly trials: number;
  readonly identifiable: number;
  /** How often each outcome came first, among the identifiable. */
  readonly first: ReadonlyMap<Outcome, number>;
}

/** Simulates single slips of one kind and counts what the engine puts first. */
export function measureKind(
  kind: Outcome,
  wanted: number,
  makeRandom: (seed: number) => Random,
): SlipRow {
  const first = new Map<Outcome, number>();
  let [trials, told] = [0, 0];
  for (let i = 0; trials < wanted && i < 20 * wanted; i++) {
    const seed = 7919 * i + 13 * (KINDS.indexOf(kind as SlipKind) + 2);
    const noise = SIGMA_ARCMIN * makeRandom(seed + 1).normal();
    const exact = trial(makeRandom(seed), kind, 0);
    const real = trial(makeRandom(seed), kind, noise);
    if (!exact || !real) continue;
    trials++;
    if (kind !== 'clean' && kind !== 'unexplained' && !identifiable(exact, kind)) continue;
    told++;
    const found = report(real).first.kind;
    first.set(found, (first.get(found) ?? 0) + 1);
  }
  return { kind, trials, identifiable: told, first };
}

export const shareRight = (r: SlipRow): number =>
  (r.first.get(r.kind) ?? 0) / Math.max(r.identifiable, 1);
