import {
  Angle,
  Duration,
  fix,
  Instant,
  Length,
  Position,
  rhumbDestination,
  seededRandom,
  simulateRound,
  type Fix,
  type FixOptions,
  type Random,
  type RoundPlan,
} from 'cocked-hat';

export const LEVELS = [0.5, 0.95] as const;

/** One kind of round whose promise is measured. */
export interface Scenario {
  readonly name: string;
  readonly sights: number;
  readonly azimuths: 'good' | 'poor';
  /** Greatest cost: fewer rounds by this factor. */
  readonly cost: number;
  readonly round: (rng: Random) => { readonly result: Fix; readonly truth: Position };
}

const INSTANT = Instant.utc('2027-05-14 18:10:00 UTC');
const arcmin = (x: number) => Angle.arcminutes(x);

/** Somewhere between 60° N and 60° S. */
function somewhere(rng: Random): Position {
  return Position.degrees(
    (Math.asin((2 * rng.uniform() - 1) * Math.sin(Math.PI / 3)) * 180) / Math.PI,
    360 * rng.uniform() - 180,
  );
}

/** Good: spread evenly round the horizon (two: square to each other); poor: all within 25°. Each moved a little at random. */
function directions(rng: Random, sights: number, azimuths: 'good' | 'poor', high = false) {
  const first = 360 * rng.uniform();
  const spread = azimuths === 'good' ? (sights === 2 ? 180 : 360) : 25 * (sights / (sights - 1));
  return Array.from({ length: sights }, (_, i) => ({
    azimuth: Angle.degrees(
      first + (spread * i) / sights + (azimuths === 'good' ? 20 : 2) * (rng.uniform() - 0.5),
    ),
    altitude: Angle.degrees(high ? 81 + 7 * rng.uniform() : 15 + 55 * rng.uniform()),
  }));
}

type Extra = Partial<Omit<RoundPlan, 'truth' | 'instant' | 'directions' | 'ownSigma'>>;

function scenario(
  name: string,
  sights: number,
  azimuths: 'good' | 'poor',
  make: (rng: Random) => { own: number; plan?: Extra; options?: FixOptions },
  high = false,
): Scenario {
  return {
    name,
    sights,
    azimuths,
    cost: sights === 2 || azimuths === 'poor' || high || name.startsWith('shared errors') ? 4 : 1,
    round(rng) {
      const truth = somewhere(rng);
      const { own, plan, options } = make(rng);
      const observations = simulateRound(rng, {
        truth,
        instant: INSTANT,
        directions: directions(rng, sights, azimuths, high),
        ownSigma: arcmin(own),
        ...plan,
      });
      // The DR is some 60 miles out: it must only tell which crossing is meant.
      const dr = rhumbDestination(
        truth,
        Angle.degrees(360 * rng.uniform()),
        Length.nauticalMiles(Math.abs(60 * rng.normal())),
      );
      return { truth, result: fix(observations, { dr, ...options }) };
    },
  };
}

const known = (n: number, az: 'good' | 'poor') =>
  scenario('sigma known', n, az, () => ({ own: 0.7 }));
/** The stated sigma is wrong by up to a factor of 2 either way; the round itself must tell. */
const estimated = (n: number, az: 'good' | 'poor') =>
  scenario('sigma estimated', n, az, (rng) => ({
    own: 0.7,
    plan: { statedSigma: arcmin(0.7 * 2 ** (2 * rng.uniform() - 1)) },
    options: { estimateSigma: true },
  }));
const shared = (n: number, az: 'good' | 'poor') =>
  scenario('shared index and watch errors', n, az, () => ({
    own: 0.6,
    plan: { sharedSigma: arcmin(0.8), watchSigma: Duration.seconds(2) },
  }));
const bias = (n: number, az: 'good' | 'poor') =>
  scenario('unknown common bias, solved for', n, az, () => ({
    own: 0.7,
    plan: { sharedSigma: arcmin(3) },
    options: { commonBias: true },
  }));
const biasEstimated = (n: number, az: 'good' | 'poor') =>
  scenario('common bias and sigma estimated', n, az, (rng) => ({
    own: 0.7,
    plan: { sharedSigma: arcmin(3), statedSigma: arcmin(0.7 * 2 ** (2 * rng.uniform() - 1)) },
    options: { commonBias: true, estimateSigma: true },
  }));
const sharedEstimated = (n: number, az: 'good' | 'poor') =>
  scenario('shared errors known, own sigma estimated', n, az, (rng) => ({
    own: 0.6,
    plan: {
      sharedSigma: arcmin(0.5),
      watchSigma: Duration.seconds(1),
      statedSigma: arcmin(0.6 * 2 ** (2 * rng.uniform() - 1)),
    },
    options: { estimateSigma: true },
  }));
const high = (n: number) => scenario('altitudes over 80°', n, 'good', () => ({ own: 0.7 }), true);

/** The DR counts: drawn 10 miles about the truth, and the fix is told so. */
const prior = (n: number, az: 'good' | 'poor'): Scenario => ({
  name: 'DR counted, 10 nm',
  sights: n,
  azimuths: az,
  cost: 4,
  round(rng) {
    const truth = somewhere(rng);
    const observations = simulateRound(rng, {
      truth,
      instant: INSTANT,
      directions: directions(rng, n, az),
      ownSigma: arcmin(0.7),
    });
    const [north, east] = [10 * rng.normal(), 10 * rng.normal()];
    const dr = rhumbDestination(
      truth,
      Angle.radians(Math.atan2(east, north)),
      Length.nauticalMiles(Math.hypot(north, east)),
    );
    return { truth, result: fix(observations, { dr, prior: { sigma: '10 nmi' } }) };
  },
});

/** Three lines over six hours of run with errors of course and speed; one body two thirds of the way round. */
const running: Scenario = {
  name: 'running fix, course and speed uncertain',
  sights: 3,
  azimuths: 'good',
  cost: 2,
  round(rng) {
    const truth = somewhere(rng);
    const [course, speed] = [360 * rng.uniform(), 4 + 3 * rng.uniform()];
    const [courseError, speedError] = [4 * rng.normal(), 0.4 * rng.normal()];
    const first = 360 * rng.uniform();
    const observations = [-6, -3, 0].map((hours, i) => {
      const there = rhumbDestination(
        truth,
        Angle.degrees(course + courseError),
        Length.nauticalMiles((speed + speedError) * hours),
      );
      const [o] = simulateRound(rng, {
        truth: there,
        instant: INSTANT.plus(Duration.hours(hours)),
        directions: [
          {
            azimuth: Angle.degrees(first + 55 * i),
            altitude: Angle.degrees(20 + 40 * rng.uniform()),
          },
        ],
        ownSigma: arcmin(0.7),
      });
      return o as NonNullable<typeof o>;
    });
    const dr = rhumbDestination(
      truth,
      Angle.degrees(360 * rng.uniform()),
      Length.nauticalMiles(20),
    );
    const result = fix(observations, {
      dr,
      course: Angle.degrees(course),
      speed: `${speed} kn`,
      courseSigma: Angle.degrees(4),
      speedSigma: '0.4 kn',
    });
    return { truth, result };
  },
};

const BOTH = ['good', 'poor'] as const;

export const SCENARIOS: readonly Scenario[] = [
  ...[2, 3, 4, 6, 12].flatMap((n) => BOTH.map((az) => known(n, az))),
  ...[3, 4, 6, 12].flatMap((n) => BOTH.map((az) => estimated(n, az))),
  ...[2, 3, 4, 6, 12].flatMap((n) => BOTH.map((az) => shared(n, az))),
  ...[3, 4, 6, 12].map((n) => bias(n, 'good')),
  ...[4, 6, 12].map((n) => biasEstimated(n, 'good')),
  ...[4, 6, 12].map((n) => sharedEstimated(n, 'good')),
  ...[2, 3, 4].map(high),
  ...[2, 3].flatMap((n) => BOTH.map((az) => prior(n, az))),
  running,
];

export interface Coverage {
  readonly scenario: Scenario;
  readonly rounds: number;
  /** Share of the rounds in which the region of each level held the truth. */
  readonly held: readonly number[];
}

/** Simulates rounds and counts how often the region of each level holds the true position. */
export function measure(s: Scenario, rounds: number, seed: number): Coverage {
  const rng = seededRandom(seed);
  const hits = LEVELS.map(() => 0);
  for (let i = 0; i < rounds; i++) {
    const { result, truth } = s.round(rng);
    LEVELS.forEach((level, k) => {
      if (result.region(level).contains(truth)) hits[k] = (hits[k] as number) + 1;
    });
  }
  return { scenario: s, rounds, held: hits.map((h) => h / rounds) };
}

/** One standard deviation of a share found in so many rounds. */
export const shareSigma = (level: number, rounds: number): number =>
  Math.sqrt((level * (1 - level)) / rounds);
