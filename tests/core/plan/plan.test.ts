import {
  Angle,
  apparentPlace,
  bestSet,
  bodiesUp,
  bodyUp,
  Duration,
  horizonWindows,
  Instant,
  Length,
  meridianPassage,
  observedAltitude,
  OutOfRangeError,
  position,
  Position,
  riseSet,
  sight,
  twilight,
} from 'cocked-hat';
import { describe, expect, test } from 'vitest';

const NOON = Instant.utc('2027-05-14 12:00:00 UTC');
const SEA = position('15°30′ S', '005°10′ W');

describe('polar day and night', () => {
  const cape = Position.degrees(78, 15);
  test('midsummer: the Sun neither rises nor sets, and no twilight begins', () => {
    const from = Instant.utc('2027-06-21 00:00:00 UTC');
    const sun = riseSet('Sun', cape, from);
    expect(sun.state).toBe('above the horizon throughout');
    expect([...sun.rises, ...sun.sets]).toEqual([]);
    expect(twilight('civil', cape, from).state).toBe('Sun never so low');
    expect(horizonWindows(cape, from)).toEqual([]);
  });
  test('midwinter: the Sun stays down, civil twilight never comes, astronomical does', () => {
    const from = Instant.utc('2027-12-21 00:00:00 UTC');
    expect(riseSet('Sun', cape, from).state).toBe('below the horizon throughout');
    expect(twilight('civil', cape, from).state).toBe('Sun never so high');
    expect(twilight('astronomical', cape, from).begins).toHaveLength(1);
  });
  test('the first sunrise after the polar night is found though the Sun shows for minutes only', () => {
    const tromso = Position.degrees(69.65, 18.96);
    const days = Array.from({ length: 20 }, (_, d) =>
      riseSet('Sun', tromso, Instant.utc('2027-01-08 00:00:00 UTC').plus(Duration.days(d))),
    );
    const first = days.findIndex((d) => d.rises.length > 0);
    expect(first).toBeGreaterThan(0);
    for (const d of days.slice(first)) expect(d.rises.length).toBe(1);
    const up = days[first] as (typeof days)[number];
    expect((up.sets[0] as Instant).minus(up.rises[0] as Instant).hours).toBeLessThan(2);
  });
  test('at high latitude in May the window for stars runs through the night', () => {
    const windows = horizonWindows(Position.degrees(57, 0), Instant.utc('2027-05-25 12:00:00 UTC'));
    expect(windows).toHaveLength(1);
    expect(windows[0]?.when).toBe('all night');
  });
});

describe('an evening in the tropics', () => {
  test('the order of the evening: set, civil, window, nautical, astronomical', () => {
    const set = riseSet('Sun', SEA, NOON).sets[0] as Instant;
    const [civil, nautical, astronomical] = (['civil', 'nautical', 'astronomical'] as const).map(
      (k) => twilight(k, SEA, NOON).ends[0] as Instant,
    ) as [Instant, Instant, Instant];
    expect([set, civil, nautical, astronomical].map((t) => t.epochMs)).toEqual(
      [set, civil, nautical, astronomical].map((t) => t.epochMs).sort((a, b) => a - b),
    );
    const [evening, morning] = horizonWindows(SEA, NOON);
    expect(evening?.when).toBe('evening');
    expect(morning?.when).toBe('morning');
    expect(Math.abs((evening?.starts as Instant).minus(civil).seconds)).toBeLessThan(0.1);
    expect(evening?.duration.minutes).toBeGreaterThan(20);
    expect(evening?.duration.minutes).toBeLessThan(35);
  });
  test('height of eye makes the Sun set later', () => {
    const sea = riseSet('Sun', SEA, NOON).sets[0] as Instant;
    const mast = riseSet('Sun', SEA, NOON, { eyeHeight: Length.metres(16) }).sets[0] as Instant;
    // 7′ of dip at 15′ cos(Lat) cos(…) a minute of time: about half a minute.
    expect(mast.minus(sea).seconds).toBeGreaterThan(25);
    expect(mast.minus(sea).seconds).toBeLessThan(40);
  });
  test('at the Sun’s meridian passage its GHA is the longitude', () => {
    const passage = meridianPassage('Sun', SEA, NOON.plus(Duration.hours(-6)));
    expect(passage.upper).toHaveLength(1);
    const { gha } = apparentPlace('Sun', passage.upper[0] as Instant);
    // Events are given to the second, half of one is 7.5″.
    expect(Math.abs(gha.plus(SEA.longitude).signed().arcseconds)).toBeLessThan(7.6);
    expect(passage.lower).toHaveLength(1);
  });
  test('the preset brings the body to its computed altitude again', () => {
    const at = Instant.utc('2027-05-14 18:35:00 UTC');
    for (const body of ['Sirius', 'Moon'] as const) {
      const b = bodyUp(body, SEA, at, {
        eyeHeight: Length.metres(2.6),
        indexError: Angle.arcminutes(-1.4),
      });
      const s = sight({
        body,
        ...(body === 'Moon' ? { limb: b.limb } : {}),
        reading: b.preset,
        time: at,
        eyeHeight: '2.6 m',
        indexError: '1.4′ off the arc',
        dr: SEA,
        refractionModel: 'formula',
      });
      expect(observedAltitude(s).value.minus(b.altitude).arcminutes, body).toBeCloseTo(0, 3);
    }
  });
  test('the Moon is preset for her lit limb, and the sight has no flag for the dark one', () => {
    const dr = position('16°50′ S', '004°35′ W');
    // Six and seven days old: by day the Sun stands above her, after sunset below (skyfield says the same, sky-view.checks.ts).
    for (const [time, limb] of [
      ['2027-05-12 16:01:24 UTC', 'upper'],
      ['2027-05-13 18:31:00 UTC', 'lower'],
    ] as const) {
      const moon = bodyUp('Moon', dr, Instant.utc(time));
      expect(moon.limb).toBe(limb);
      expect(moon.toString()).toMatch(new RegExp(`^Moon, ${limb} limb: set`));
      const seen = sight({ body: 'Moon', limb, reading: moon.preset, time, dr, eyeHeight: '2 m' });
      expect(observedAltitude(seen).flags).toEqual([]);
      expect(observedAltitude(seen).value.minus(moon.altitude).arcminutes).toBeCloseTo(0, 1);
    }
  });
  test('bodies up come in order of azimuth within the limits', () => {
    const list = bodiesUp(SEA, Instant.utc('2027-05-14 18:35:00 UTC'));
    expect(list.length).toBeGreaterThan(10);
    list.forEach((b, i) => {
      expect(b.altitude.degrees).toBeGreaterThanOrEqual(10);
      expect(b.altitude.degrees).toBeLessThanOrEqual(75);
      if (i > 0)
        expect(b.azimuth.degrees).toBeGreaterThanOrEqual((list[i - 1] as typeof b).azimuth.degrees);
    });
  });
});

describe('the best set', () => {
  const at = Instant.utc('2027-05-14 18:35:00 UTC');
  test('no other set of the same bodies gives a smaller radial error', () => {
    const best = bestSet(SEA, at, { count: 3 });
    expect(best.bodies).toHaveLength(3);
    const out = new Set(best.leftOut.map((l) => l.body));
    const pool = bodiesUp(SEA, at).filter((b) => !out.has(b.body));
    for (const a of pool)
      for (const b of pool)
        for (const c of pool)
          if (a.body < b.body && b.body < c.body)
            expect(radial([a, b, c].map((x) => x.azimuth.radians))).toBeGreaterThanOrEqual(
              best.radialNm - 1e-9,
            );
    expect(radial(best.bodies.map((b) => b.azimuth.radians))).toBeCloseTo(best.radialNm, 9);
  });
  test('more bodies fix better', () => {
    const [three, five, seven] = [3, 5, 7].map((count) => bestSet(SEA, at, { count }).radialNm);
    expect(five).toBeLessThan(three as number);
    expect(seven).toBeLessThan(five as number);
  });
  test('half a horizon is respected and costs accuracy', () => {
    const whole = bestSet(SEA, at, { count: 3 });
    const half = bestSet(SEA, at, {
      count: 3,
      horizon: [{ from: Angle.degrees(270), to: Angle.degrees(90) }],
    });
    for (const b of half.bodies) expect(Math.cos(b.azimuth.radians)).toBeGreaterThanOrEqual(0);
    expect(half.radialNm).toBeGreaterThan(whole.radialNm);
    expect(half.leftOut.some((l) => l.reason === 'no horizon under it')).toBe(true);
  });
  test('by day there are no stars, and that is said', () => {
    expect(() => bestSet(SEA, NOON, { count: 3 })).toThrow(OutOfRangeError);
    expect(() => bestSet(SEA, at, { count: 9 })).toThrow(/3 to 7/);
  });
});

/** Radial standard deviation by the plain 3 × 3 normal equations, the shared error an unknown with 1′ of prior. */
function radial(azimuths: readonly number[]): number {
  const m = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 1],
  ];
  for (const z of azimuths) {
    const row = [Math.cos(z), Math.sin(z), 1];
    row.forEach((x, i) =>
      row.forEach((y, j) => ((m[i] as number[])[j] = (m[i] as number[])[j]! + (x * y) / 0.49)),
    );
  }
  const [[a, b, c], [, d, e], [, , f]] = m as [
    [number, number, number],
    [number, number, number],
    [number, number, number],
  ];
  const det = a * (d * f - e * e) - b * (b * f - c * e) + c * (b * e - c * d);
  return Math.sqrt((d * f - e * e + a * f - c * c) / det);
}
