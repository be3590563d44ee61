import {
  Angle,
  fix,
  Instant,
  Position,
  reduceColumns,
  seededRandom,
  simulateRound,
  type BodyName,
  type ReductionColumns,
} from 'cocked-hat';

const BODIES: readonly BodyName[] = [
  'Sun',
  'Moon',
  'Venus',
  'Mars',
  'Jupiter',
  'Saturn',
  'Aldebaran',
  'Canopus',
];
const ROUNDS = 5;

function columns(n: number): ReductionColumns {
  const rng = seededRandom(11);
  const each = (make: (i: number) => number) => Float64Array.from({ length: n }, (_, i) => make(i));
  const tt = each(() => 2461000.5 + 730 * rng.uniform());
  return {
    body: Array.from({ length: n }, (_, i) => BODIES[i % BODIES.length] as BodyName),
    ttJd: tt,
    ut1Jd: tt.map((t) => t - 69.2 / 86400),
    latDeg: each(() => 120 * rng.uniform() - 60),
    lonDeg: each(() => 360 * rng.uniform() - 180),
    readingDeg: each(() => 15 + 60 * rng.uniform()),
    limb: Int8Array.from({ length: n }, (_, i) => (i % BODIES.length < 2 ? -1 : 0)),
    indexErrorArcmin: each(() => 2 * rng.normal()),
    eyeHeightM: each(() => 2 + 3 * rng.uniform()),
    temperatureC: each(() => 25 * rng.uniform()),
    pressureHpa: each(() => 1000 + 30 * rng.uniform()),
  };
}

/** Full reductions a second, the best of some rounds, memory taken, and a sample for others to repeat. */
export function measureReductions(n: number) {
  const batch = columns(n);
  let best = 0;
  let results = reduceColumns(batch);
  globalThis.gc?.();
  const before = process.memoryUsage();
  const kept = columns(n);
  const keptResults = reduceColumns(kept);
  const after = process.memoryUsage();
  for (let k = 0; k < ROUNDS; k++) {
    const start = performance.now();
    results = reduceColumns(batch);
    best = Math.max(best, (n / (performance.now() - start)) * 1000);
  }
  const bytes = after.heapUsed + after.arrayBuffers - before.heapUsed - before.arrayBuffers;
  // Only the Sun for Python: one vectorised call; a lower limb, as most sights are.
  const suns = batch.body.flatMap((b, i) => (b === 'Sun' ? [i] : [])).slice(0, 10000);
  const pick = (x: Float64Array) => suns.map((i) => x[i]);
  return {
    perSecond: best,
    bytesPerSight: (bytes + 0 * (keptResults.azDeg[0] ?? 0)) / n,
    sample: {
      ttJd: pick(batch.ttJd),
      deltaTSeconds: 69.2,
      latDeg: pick(batch.latDeg),
      lonDeg: pick(batch.lonDeg),
      readingDeg: pick(batch.readingDeg),
      indexErrorArcmin: pick(batch.indexErrorArcmin),
      eyeHeightM: pick(batch.eyeHeightM),
      temperatureC: pick(batch.temperatureC),
      pressureHpa: pick(batch.pressureHpa),
      interceptArcmin: pick(results.interceptArcmin),
    },
  };
}

/** Fixes a second with the region drawn, by number of sights. */
export function measureFixes(): { sights: number; perSecond: number }[] {
  return [2, 3, 6, 12].map((sights) => {
    const rng = seededRandom(12);
    const truth = Position.degrees(-19.5, -1.2);
    const rounds = Array.from({ length: 200 }, () =>
      simulateRound(rng, {
        truth,
        instant: Instant.utc('2027-05-14 18:10:00 UTC'),
        directions: Array.from({ length: sights }, (_, i) => ({
          azimuth: Angle.degrees(sights === 2 ? 90 * i : (360 * i) / sights),
          altitude: Angle.degrees(20 + 40 * rng.uniform()),
        })),
        ownSigma: Angle.arcminutes(0.7),
      }),
    );
    let best = 0;
    for (let k = 0; k < 3; k++) {
      const start = performance.now();
      for (const r of rounds) void fix(r, { dr: truth }).region().polygon.length;
      best = Math.max(best, (rounds.length / (performance.now() - start)) * 1000);
    }
    return { sights, perSecond: best };
  });
}
