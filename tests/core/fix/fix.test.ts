import {
  Angle,
  computedAltitude,
  Duration,
  fix,
  Instant,
  Length,
  OutOfRangeError,
  position,
  Position,
  rhumbBetween,
  rhumbDestination,
  seededRandom,
  simulateRound,
  type AltitudeObservation,
  type FixFlagCode,
} from 'cocked-hat';
import { describe, expect, test } from 'vitest';

const TRUTH = position('19°31′ S', '001°12′ W');
const AT = Instant.utc('2027-05-14 18:10:00 UTC');
const deg = (x: number) => Angle.degrees(x);
const arcmin = (x: number) => Angle.arcminutes(x);

/** Altitudes as they truly are at TRUTH, with errors added in minutes of arc. */
function round(
  directions: readonly (readonly [azimuth: number, altitude: number, error?: number])[],
  truth = TRUTH,
  at = AT,
): AltitudeObservation[] {
  const exact = simulateRound(seededRandom(1), {
    truth,
    instant: at,
    directions: directions.map(([az, alt]) => ({ azimuth: deg(az), altitude: deg(alt) })),
    ownSigma: arcmin(0),
    statedSigma: arcmin(0.7),
  });
  return exact.map((o, i) => ({
    ...o,
    observed: o.observed.plus(arcmin(directions[i]?.[2] ?? 0)),
  }));
}
const miles = (a: Position, b: Position) => rhumbBetween(a, b).distance.nauticalMiles;
const codes = (f: { flags: readonly { code: FixFlagCode }[] }) => f.flags.map((x) => x.code);
const STAR = [
  [20, 35],
  [95, 50],
  [170, 28],
  [260, 42],
] as const;

describe('a fix without errors is the true position', () => {
  test.each([0, 5, 60, 400, 900])('from a DR %i miles out', (out) => {
    for (const bearing of [0, 110, 250]) {
      const dr = rhumbDestination(TRUTH, deg(bearing), Length.nauticalMiles(out));
      const f = fix(round(STAR), { dr });
      expect(miles(f.position, TRUTH)).toBeLessThan(1e-6);
      expect(f.chi2).toBeLessThan(1e-9);
    }
  });
  test('with no DR at all', () => {
    expect(miles(fix(round(STAR)).position, TRUTH)).toBeLessThan(1e-6);
  });
  test('near a pole and across the date line', () => {
    for (const truth of [
      Position.degrees(89.6, 10),
      Position.degrees(-12, 179.99),
      Position.degrees(-89.9, -70),
    ]) {
      const f = fix(round(STAR, truth), { dr: truth });
      expect(computedMiss(f.position, truth)).toBeLessThan(1e-6);
    }
  });
  test('of a running vessel, the lines carried along rhumb lines and current', () => {
    const course = deg(312);
    const sights = [-5, -2.5, 0].flatMap((hours, i) => {
      const through = rhumbDestination(TRUTH, course, Length.nauticalMiles(5.2 * hours));
      const there = rhumbDestination(through, deg(90), Length.nauticalMiles(0.8 * hours));
      return round([[20 + 60 * i, 40]], there, AT.plus(Duration.hours(hours)));
    });
    const f = fix(sights, {
      dr: TRUTH,
      course,
      speed: '5.2 kn',
      current: { set: '090°', drift: '0.8 kn' },
    });
    expect(f.instant.compare(AT)).toBe(0);
    // The order of run and current matters by their product over the Earth's radius: 26 × 4 miles make 0.02 miles.
    expect(miles(f.position, TRUTH)).toBeLessThan(0.02);
    const without = fix(sights, { dr: TRUTH });
    expect(miles(without.position, TRUTH)).toBeGreaterThan(5);
    expect(codes(without)).toContain('no run');
  });
  test('courses changed on the way', () => {
    const turn = AT.plus(Duration.hours(-2));
    const before = rhumbDestination(TRUTH, deg(40), Length.nauticalMiles(-10));
    const start = rhumbDestination(before, deg(130), Length.nauticalMiles(-12));
    const sights = [
      ...round([[30, 40]], start, AT.plus(Duration.hours(-5))),
      ...round([[120, 40]], before, turn),
      ...round([[200, 40]]),
    ];
    const f = fix(sights, {
      dr: TRUTH,
      track: [
        { from: AT.plus(Duration.hours(-9)), course: '130°', speed: '4 kn' },
        { from: turn, course: '040°', speed: '5 kn' },
      ],
    });
    expect(miles(f.position, TRUTH)).toBeLessThan(1e-4);
  });
  test('a common error is found and taken off', () => {
    const f = fix(round(STAR.map(([z, h]) => [z, h, 2.3] as const)), {
      dr: TRUTH,
      commonBias: true,
    });
    expect(f.commonBias?.value.arcminutes).toBeCloseTo(2.3, 3);
    expect(miles(f.position, TRUTH)).toBeLessThan(0.002);
  });
});

const computedMiss = (a: Position, b: Position) =>
  90 * 60 - computedAltitude(a, deg(-b.lonDeg), deg(b.latDeg)).altitude.arcminutes;

describe('what a fix says of itself', () => {
  test('a single line is a band', () => {
    const f = fix(round([[45, 40]]), { dr: TRUTH });
    expect(codes(f)).toContain('single line');
    const band = f.region(0.95);
    expect(band.bounded).toBe(false);
    expect(band.semiMinor.nauticalMiles).toBeCloseTo(1.96 * 0.7, 2);
    expect(band.axis.degrees).toBeCloseTo(135, 0);
    expect(band.contains(rhumbDestination(TRUTH, deg(135), Length.nauticalMiles(20)))).toBe(true);
    expect(band.contains(rhumbDestination(TRUTH, deg(45), Length.nauticalMiles(2)))).toBe(false);
    expect(f.covariance).toBeNull();
  });
  test('a single line without a DR is refused with the way out', () => {
    expect(() => fix(round([[45, 40]]))).toThrow(/needs a DR/);
    expect(() => fix([])).toThrow(OutOfRangeError);
  });
  test('a DR counted as an observation closes the band', () => {
    const f = fix(round([[45, 40]]), { dr: TRUTH, prior: { sigma: '10 nmi' } });
    const r = f.region(0.95);
    expect(r.bounded).toBe(true);
    expect(r.semiMajor.nauticalMiles).toBeCloseTo(10 * 2.4477, 0);
  });
  test('parallel lines are called parallel', () => {
    expect(
      codes(
        fix(
          round([
            [45, 40],
            [225, 50],
            [45, 60],
          ]),
          { dr: TRUTH },
        ),
      ),
    ).toContain('parallel lines');
  });
  test('a poor crossing is called poor', () => {
    expect(
      codes(
        fix(
          round([
            [45, 40],
            [60, 50],
          ]),
          { dr: TRUTH },
        ),
      ),
    ).toContain('poor crossing');
  });
  test('a contradiction names the sight', () => {
    const f = fix(round(STAR.map(([z, h], i) => [z, h, i === 2 ? 9 : 0] as const)), { dr: TRUTH });
    const flag = f.flags.find((x) => x.code === 'contradiction');
    expect(flag?.text).toContain('Body 3');
    expect(f.residuals[2]?.suspect).toBe(true);
  });
  test('a doubled sight is counted once', () => {
    const one = round(STAR);
    const f = fix([...one, one[0] as AltitudeObservation], { dr: TRUTH });
    expect(codes(f)).toContain('duplicate');
    expect(f.residuals).toHaveLength(4);
    expect(f.region().toString()).toBe(fix(one, { dr: TRUTH }).region().toString());
  });
  test('two circles that miss each other', () => {
    // Two bodies 30° apart that both stand within 5° of the zenith: impossible.
    const gp = (lon: number): AltitudeObservation => ({
      body: `at ${lon}`,
      instant: AT,
      observed: deg(85),
      gha: deg(-lon),
      declination: deg(0),
      causes: [{ cause: 'observer', sigmaArcmin: 0.7 }],
    });
    const f = fix([gp(0), gp(30)], { dr: Position.degrees(0, 14) });
    expect(codes(f)).toContain('lines do not meet');
  });
  test('a body in the zenith', () => {
    const f = fix(
      round([
        [45, 89.99],
        [130, 40],
        [10, 30],
      ]),
      { dr: TRUTH },
    );
    expect(codes(f)).toContain('zenith');
    expect(miles(f.position, TRUTH)).toBeLessThan(0.01);
    expect(f.region().method).toBe('exact density on a grid');
  });
  test('both crossings of two circles', () => {
    const two = round([
      [45, 75],
      [135, 75],
    ]);
    const f = fix(two, { dr: TRUTH });
    expect(f.rivals).toHaveLength(1);
    expect(codes(f)).not.toContain('two crossings');
    const other = fix(two, { dr: f.rivals[0]?.position as Position });
    expect(miles(other.position, f.rivals[0]?.position as Position)).toBeLessThan(1e-6);
    expect(codes(fix(two))).toContain('two crossings');
  });
  test('scatter that cannot be estimated is said so', () => {
    expect(
      codes(
        fix(
          round([
            [45, 40],
            [135, 50],
          ]),
          { dr: TRUTH, estimateSigma: true },
        ),
      ),
    ).toContain('scatter unknown');
  });
  test('half a run is refused', () => {
    expect(() => fix(round(STAR), { dr: TRUTH, course: '312°' })).toThrow(/course and speed/);
  });
});

describe('numbers with a known answer', () => {
  test('n lines evenly spread make a circle of 2.4477 σ √(2/n)', () => {
    for (const n of [3, 4, 6, 12]) {
      const f = fix(round(Array.from({ length: n }, (_, i) => [(360 * i) / n, 40] as const)), {
        dr: TRUTH,
        method: 'ellipse',
      });
      const expected = 2.4477 * 0.7 * Math.sqrt(2 / n);
      expect(f.region(0.95).semiMajor.nauticalMiles).toBeCloseTo(expected, 3);
      expect(f.region(0.95).semiMinor.nauticalMiles).toBeCloseTo(expected, 3);
      expect(f.geometry.milesPerArcminute).toBeCloseTo(2 / Math.sqrt(n), 6);
    }
  });
  test('leverages add up to the unknowns', () => {
    const sum = (commonBias: boolean) =>
      fix(round(STAR), { dr: TRUTH, commonBias }).residuals.reduce((s, r) => s + r.leverage, 0);
    expect(sum(false)).toBeCloseTo(2, 9);
    expect(sum(true)).toBeCloseTo(3, 9);
  });
  test('an error shared by lines all round the horizon leaves the position alone', () => {
    const directions = [0, 90, 180, 270].map((az) => ({ azimuth: deg(az), altitude: deg(40) }));
    const observations = simulateRound(seededRandom(4), {
      truth: TRUTH,
      instant: AT,
      directions,
      ownSigma: arcmin(0.01),
      sharedSigma: arcmin(3),
    });
    const f = fix(observations, { dr: TRUTH });
    expect(miles(f.position, TRUTH)).toBeLessThan(0.05);
    expect(f.region().semiMajor.nauticalMiles).toBeLessThan(0.05);
  });
  test('grid and ellipse agree where circles are nearly straight', () => {
    const observations = round(STAR);
    const [a, b] = (['grid', 'ellipse'] as const).map((method) =>
      fix(observations, { dr: TRUTH, method }).region(0.95),
    );
    expect(a?.semiMajor.nauticalMiles).toBeCloseTo(b?.semiMajor.nauticalMiles as number, 1);
    expect(a?.axis.degrees).toBeCloseTo(b?.axis.degrees as number, 0);
  });
  test('an uncertain course widens a running fix across the track only', () => {
    const sights = [-6, 0].flatMap((h, i) =>
      round(
        [[90 * i, 40]],
        rhumbDestination(TRUTH, deg(0), Length.nauticalMiles(6 * h)),
        AT.plus(Duration.hours(h)),
      ),
    );
    const options = {
      dr: TRUTH,
      course: '000°',
      speed: '6 kn',
      speedSigma: '0 kn',
      method: 'ellipse',
    } as const;
    const sure = fix(sights, { ...options, courseSigma: '0°' }).covariance as number[][];
    const loose = fix(sights, { ...options, courseSigma: '5°' }).covariance as number[][];
    // The older line lies east and west: it gives latitude, which a course error on a northerly run hardly touches.
    expect(loose[0]?.[0]).toBeCloseTo(sure[0]?.[0] as number, 3);
    const speedy = fix(sights, { ...options, courseSigma: '0°', speedSigma: '0.5 kn' })
      .covariance as number[][];
    expect(speedy[0]?.[0]).toBeCloseTo((sure[0]?.[0] as number) + (6 * 0.5) ** 2, 2);
  });
  test('a slow watch moves a fix of stars by a quarter of a minute of longitude a second', () => {
    const observations = round(STAR).map((o) => ({
      ...o,
      gha: o.gha.plus(arcmin((15.041 / 60) * 4)),
    }));
    const f = fix(observations, { dr: TRUTH });
    expect((f.position.lonDeg - TRUTH.lonDeg) * 60).toBeCloseTo(-1.003, 2);
  });
});

describe('shapes', () => {
  test('the cocked hat of three lines has three corners on the lines', () => {
    const f = fix(
      round([
        [0, 30, 1],
        [120, 40, 1],
        [240, 50, 1],
      ]),
      { dr: TRUTH },
    );
    const hat = f.cockedHat() as Position[];
    expect(hat).toHaveLength(3);
    // Three lines each 1 mile toward its body, 120° apart: corners 2 miles from the middle.
    for (const corner of hat) expect(miles(corner, TRUTH)).toBeCloseTo(2, 1);
    expect(
      fix(
        round([
          [0, 30],
          [90, 40],
        ]),
        { dr: TRUTH },
      ).cockedHat(),
    ).toBeNull();
  });
  test('GeoJSON of a fix at the date line is cut there', () => {
    const f = fix(round(STAR, Position.degrees(10, 179.999)), { dr: Position.degrees(10, 179.9) });
    const json = f.toGeoJson();
    const region = json.features.find((x) => x.properties['kind'] === 'region');
    expect(region?.geometry.type).toBe('MultiPolygon');
    const all = JSON.stringify(json).match(/-?\d+\.?\d*(?=,-?\d+\.?\d*\])/g) as string[];
    for (const lon of all) expect(Math.abs(Number(lon))).toBeLessThanOrEqual(180);
    expect(JSON.parse(JSON.stringify(f)).flags).toEqual([]);
  });
});
