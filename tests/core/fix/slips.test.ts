import {
  Angle,
  apparentPlace,
  computedAltitude,
  Duration,
  findSlip,
  findSlips,
  fix,
  Instant,
  altitudeInputOf,
  Length,
  position,
  sextantReadingFor,
  sight,
  sightPlace,
  seededRandom,
  type BodyName,
  type SightFields,
} from 'cocked-hat';
import { describe, expect, test } from 'vitest';
import { KINDS, measureKind, shareRight } from '../../bench/slips-cases.js';
import { measureReadings, READING_KINDS } from '../../bench/slips-readings.js';
import { measureTwice } from '../../bench/slips-twice.js';

/** The full table is `npm run slips`; here fewer of each, the same seeds every time. */
const EACH = 40;

describe('slips at a known place', () => {
  const rows = KINDS.map((kind) => measureKind(kind, EACH, seededRandom));
  test('nine in ten of the slips that can be told are named first', () => {
    const told = rows.reduce((s, r) => s + r.identifiable, 0);
    const right = rows.reduce((s, r) => s + (r.first.get(r.kind) ?? 0), 0);
    expect(told).toBeGreaterThan(EACH * 10);
    expect(right / told).toBeGreaterThanOrEqual(0.9);
  });
  test('every kind can be told in some circumstances', () => {
    for (const r of rows) expect(r.identifiable, r.kind).toBeGreaterThan(0);
  });
  test('a clean sight is called clean in 99 of 100', () => {
    expect(shareRight(measureKind('clean', 400, seededRandom))).toBeGreaterThanOrEqual(0.99);
  });
});

const PLACE = position('19°31′ S', '001°12′ W');
const AT = Instant.utc('2027-05-11 18:20:00 UTC');
function starSight(body: BodyName, errorArcmin: number, change: Partial<SightFields> = {}) {
  const { gha, declination } = apparentPlace(body, AT);
  const { altitude } = computedAltitude(PLACE, gha, declination);
  const fields: SightFields = {
    body,
    reading: Angle.zero,
    time: AT,
    eyeHeight: Length.metres(2.6),
    indexError: '1.4′ off the arc',
    sigma: '0.7′',
    dr: PLACE,
  };
  const plain = sight(fields);
  const reading = sextantReadingFor(
    altitude.degrees + errorArcmin / 60,
    altitudeInputOf(plain, sightPlace(plain)),
  );
  return sight({ ...fields, reading: Angle.degrees(reading), ...change });
}

describe('slips in a round', () => {
  const good = [
    starSight('Sirius', 0.3),
    starSight('Canopus', -0.5),
    starSight('Regulus', 0.2),
    starSight('Spica', -0.1),
  ];
  test('a clean round is called clean', () => {
    const report = findSlips(good, { dr: PLACE });
    expect(report.clean).toBe(true);
    expect(report.first.probability).toBeGreaterThan(0.9);
  });
  test('the sight and the slip are named together', () => {
    const wrong = starSight('Rigil Kentaurus', 60.4);
    const report = findSlips([...good, wrong], { dr: PLACE });
    expect(report.first.kind).toBe('whole degree');
    expect(report.first.sight).toBe(wrong);
    expect(report.first.detail).toBe('1° less');
    expect(String(report)).toContain('Rigil Kentaurus');
    expect(report.likeliest.join('\n')).toBe(String(report));
  });
  test('three lines suffice where a degree in another sight would not close the figure as well', () => {
    const wrong = starSight('Regulus', 60);
    const report = findSlips([good[0], good[1], wrong] as (typeof wrong)[], { dr: PLACE });
    expect(report.first.kind).toBe('whole degree');
    expect(report.first.sight).toBe(wrong);
    expect(report.clean).toBe(false);
  });
  test('a star noted under the name of one far from it is named, at a known place and in a round', () => {
    // Elnath and Canopus stand about 80° apart: no neighbours.
    const wrong = starSight('Elnath', 0.3, { body: 'Canopus' });
    for (const { first } of [
      findSlip(wrong, PLACE),
      findSlips([...good.filter((s) => s.body !== 'Canopus'), wrong], { dr: PLACE }),
    ])
      expect([first.kind, first.detail]).toEqual(['body misnamed', 'Elnath']);
  });
  test('a star taken for another twice, far apart in time, is named for both; under its own name the round is clean', () => {
    const { trials, first, clean } = measureTwice(12, seededRandom);
    expect([first, clean]).toEqual([trials, trials]);
  });
  test('an error on no list is called unexplained', () => {
    const report = findSlips([...good, starSight('Rigil Kentaurus', 143)], { dr: PLACE });
    expect(report.first.kind).toBe('unexplained');
  });
  test('two sights cannot contradict each other, and the error says what would', () => {
    expect(() => findSlips(good.slice(0, 2), { dr: PLACE })).toThrow(/three or more/);
  });
  test('probabilities add up to one and the sights are left as they were', () => {
    const before = JSON.stringify(good);
    const report = findSlips(good, { dr: PLACE });
    expect(report.findings.reduce((s, f) => s + f.probability, 0)).toBeCloseTo(1, 9);
    expect(JSON.stringify(good)).toBe(before);
    expect(fix(good, { dr: PLACE }).residuals).toHaveLength(4);
  });
});

describe('a slip in one reading of a sight', () => {
  const others = ['Sirius', 'Canopus', 'Regulus', 'Spica'].map((body) =>
    starSight(body as BodyName, 0),
  );
  /** Two or three readings 40 s apart, one of them so far off. */
  function readAgain(offArcmin: readonly number[], times: 'each' | 'one' = 'each') {
    const body = 'Rigil Kentaurus';
    const moments = offArcmin.map((_, i) => AT.plus(Duration.seconds(40 * i)));
    const readings = moments.map((at, i) => {
      const { gha, declination } = apparentPlace(body, at);
      const { altitude } = computedAltitude(PLACE, gha, declination);
      const plain = starSight(body, 0, { time: at });
      const input = altitudeInputOf(plain, sightPlace(plain));
      return Angle.degrees(
        sextantReadingFor(altitude.degrees + (offArcmin[i] as number) / 60, input),
      );
    });
    const time = times === 'each' ? moments : AT.plus(Duration.seconds(20 * (readings.length - 1)));
    return starSight(body, 0, { reading: readings, time });
  }
  test('is told from a slip in all of them, with the reading’s number', () => {
    const { first } = findSlips([...others, readAgain([0.3, 30.2, -0.4])], { dr: PLACE });
    expect(first).toMatchObject({ kind: 'thirty minutes', reading: 2 });
    expect(first.text).toContain('reading 2 of 3: 30′ less');
    // All of them 30′ high: with the shifts of a day much alike, but no matter for one reading.
    const all = findSlips([...others, readAgain([30.1, 30.2, 29.6])], { dr: PLACE });
    expect(all.first.reading).toBeNull();
    expect(all.findings.find((f) => f.kind === 'thirty minutes')?.reading).toBeNull();
  });
  test('of two readings the other lines say which, and the sentence says so', () => {
    for (const [offs, reading] of [
      [[10.2, 0.1], 1],
      [[0.1, 10.2], 2],
    ] as const) {
      const { first } = findSlips([...others, readAgain(offs)], { dr: PLACE });
      expect(first).toMatchObject({
        kind: 'ten minutes',
        reading,
        detail: `reading ${reading} of 2: 10′ less`,
      });
      expect(first.text).toContain('do not say which of them is wrong');
    }
  });
  test('an amount on no list is laid to the reading, not to the sight', () => {
    const { first } = findSlips([...others, readAgain([0.2, 17.3, -0.1])], { dr: PLACE });
    expect(first).toMatchObject({ kind: 'unexplained', reading: 2 });
    expect(first.text).toContain('reading 2 of 3 is wrong by something');
  });
  test('shows at a known place as well', () => {
    const { first } = findSlip(readAgain([0.2, -60.1, 0.4]), PLACE);
    expect(first).toMatchObject({ kind: 'whole degree', reading: 2 });
  });
  test('readings without times of their own are taken together', () => {
    const report = findSlips([...others, readAgain([0, 30], 'one')], { dr: PLACE });
    expect(report.findings.every((f) => f.reading === null)).toBe(true);
  });
  test('readings that scatter as the budget says stay clean', () => {
    expect(findSlips([...others, readAgain([0.9, -1.1, 0.4])], { dr: PLACE }).clean).toBe(true);
  });
  test('in simulated rounds nine in ten that can be told are named, and clean rounds are called clean', () => {
    const rows = READING_KINDS.map((kind) => measureReadings(kind, 2, 4, seededRandom));
    const told = rows.reduce((s, r) => s + r.identifiable, 0);
    expect(told).toBeGreaterThan(8);
    expect(rows.reduce((s, r) => s + r.first, 0) / told).toBeGreaterThanOrEqual(0.9);
    expect(measureReadings('clean', 2, 6, seededRandom).clean).toBe(6);
  });
});

describe('a slip in the working', () => {
  test('dip left out shows beside the library’s own working, without any known altitude', () => {
    const s = starSight('Sirius', 0.4);
    const worked = findSlip(s, PLACE).residual as Angle;
    expect(worked.arcminutes).toBeCloseTo(0.4, 1);
    const ho = observedOf(s).plus(Angle.arcminutes(2.8));
    expect(findSlip(s, PLACE, { worked: ho }).first.kind).toBe('dip forgotten');
  });
});

function observedOf(s: ReturnType<typeof sight>): Angle {
  const { gha, declination } = apparentPlace(s.body, s.instant);
  const { altitude } = computedAltitude(PLACE, gha, declination);
  return altitude.plus(findSlip(s, PLACE).residual as Angle);
}
