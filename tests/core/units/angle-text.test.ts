import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  Angle,
  angle,
  EntryError,
  formatAngle,
  formatLatitude,
  formatLongitude,
  latitude,
  longitude,
  OutOfRangeError,
} from 'cocked-hat';

const ANGLE = 34 + 17.6 / 60;

describe('an angle is read as people write it', () => {
  test.each([
    '34° 17.6′',
    "34°17.6'",
    '34 17.6',
    '34-17.6',
    '34–17.6',
    '34:17:36',
    '34°17′36″',
    '34° 17\' 36"',
    '34d17.6m',
    '34 deg 17.6 min',
    '34.293333333°',
    '34.293333333 deg',
    'N 34° 17.6′',
    '34 17.6 N',
    '34°17.6′N',
    'n34 17.6',
    '+34 17.6',
    '  34\u00a017.6  ',
    '34º17.6’',
    '34º17.6´',
    '34°17.6`',
    '34°17´36´´',
  ])('%s', (text) => {
    expect(angle(text).degrees).toBeCloseTo(ANGLE, 8);
    expect(angle(text).text).toBe(text);
  });

  test.each([
    ['15 55.2 S', -15.92],
    ['W 005°43.1′', -(5 + 43.1 / 60)],
    ['−0°00.4′', -0.4 / 60],
    ['-0 30', -0.5],
    ['1.4′', 1.4 / 60],
    ['36″', 0.01],
    ['0°', 0],
    ['360°00.0′', 360],
    ['11h 39m 26.7s', 15 * (11 + 39 / 60 + 26.7 / 3600)],
    ['15.92 S', -15.92],
  ])('%s is %d°', (text, degrees) => expect(angle(text).degrees).toBeCloseTo(degrees, 9));
});

/** text, what the message must say, where the mark must stand */
const REFUSED: [string, RegExp, number?][] = [
  ['34', /degrees or minutes/, 0],
  ['34.5', /degrees or minutes/, 0],
  ['34 60.0', /Minutes must be under 60/, 3],
  ['34°17′60″', /Seconds must be under 60/, 6],
  ['34 17 60', /Seconds must be under 60/, 6],
  ['34.5 17', /Only the last figure/, 0],
  ['34 17.5 20', /Only the last figure/, 3],
  ['34,5°', /comma/, 2],
  ['-15 00 S', /twice/, 0],
  ['N 34 17.6 N', /Two letters/, 10],
  ['34 N 17.6', /before or after/, 3],
  ['34 17 36 5', /more than degrees, minutes and seconds/, 9],
  ['17′ 34°', /out of order/, 6],
  ['34 17.6 x', /'x' does not belong/, 8],
  ['1e5°', /before or after/, 1],
  ['1x5°', /'x' does not belong/, 1],
  ['34--17', /A figure is missing/],
  ['34-', /A figure is missing/],
  ['', /Nothing is written/],
  ['   ', /Nothing is written/],
  ['N', /no figures/],
  ['11h 60m', /Minutes must be under 60/],
];

describe('an angle is refused with its text and the right form', () => {
  test.each(REFUSED)('%s', (text, message, at) => {
    try {
      angle(text);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(EntryError);
      const refusal = error as EntryError;
      expect(refusal.message).toMatch(message);
      expect(refusal.message).toContain('Write 34°17.6′');
      expect(refusal.text).toBe(text);
      if (at !== undefined) expect(refusal.at).toBe(at);
    }
  });

  test.each([
    ['E 15 55.2', /does not belong to a latitude/],
    ['91° N', /cannot exceed 90°/],
    ['90°00.1′ S', /cannot exceed 90°/],
    ['15 55.2', /N or S is missing/],
  ])('%s as a latitude', (text, message) => expect(() => latitude(text)).toThrow(message));
  test.each([
    ['N 15 55.2', /does not belong to a longitude/],
    ['181° W', /cannot exceed 180°/],
    ['5 43.1', /E or W is missing/],
  ])('%s as a longitude', (text, message) => expect(() => longitude(text)).toThrow(message));
  test.each([
    ['150°00.1′', /150°/],
    ['34 17.6 N', /has no N/],
  ])('%s as an altitude', (text, message) =>
    expect(() => angle(text, { kind: 'altitude' })).toThrow(message),
  );

  test('a latitude with a sign, or zero, needs no letter', () => {
    expect(latitude('-15 55.2').degrees).toBeCloseTo(-15.92, 9);
    expect(latitude('−15.92°').degrees).toBeCloseTo(-15.92, 9);
    expect(latitude('0°').degrees).toBe(0);
  });
});

describe('printing', () => {
  test('rounds once: never 60.0′, never −0.0′', () => {
    expect(formatAngle(34 + 59.96 / 60)).toBe('35°00.0′');
    expect(formatAngle(-0.04 / 60)).toBe('0°00.0′');
    expect(formatLatitude(-0.04 / 60)).toBe('00°00.0′ N');
    expect(formatLongitude(-179.9999)).toBe('180°00.0′ E');
  });

  const degrees = fc.double({ min: -1000, max: 1000, noNaN: true });
  const decimals = fc.integer({ min: 0, max: 4 });
  test('comes back as the same angle within half the last digit, at any number of decimals', () => {
    fc.assert(
      fc.property(degrees, decimals, (value, places) => {
        const printed = formatAngle(value, places);
        expect(printed).not.toMatch(/°60(\.0*)?′/);
        expect(printed).not.toMatch(/^−0°0*(\.0*)?′$/);
        const back = angle(printed);
        expect(Math.abs(back.degrees - value) * 60).toBeLessThanOrEqual(0.5 * 10 ** -places + 1e-9);
        expect(formatAngle(back.degrees, places)).toBe(printed);
      }),
    );
  });
  test('of latitudes and longitudes comes back too, across the date line', () => {
    fc.assert(
      fc.property(fc.double({ min: -90, max: 90, noNaN: true }), degrees, (lat, lon) => {
        expect(latitude(formatLatitude(lat)).degrees).toBeCloseTo(lat, 2);
        const back = longitude(formatLongitude(lon));
        expect(Math.abs(back.minus(Angle.degrees(lon)).signed().degrees)).toBeLessThan(0.001);
      }),
    );
  });
});

describe('whatever comes in', () => {
  test('any text gives a finite angle or an EntryError that keeps the text', () => {
    const glyphs = fc.string({
      unit: fc.constantFrom(...'0123456789.°′″\'" -−+:NSEWnsewdhm,'),
      maxLength: 14,
    });
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), glyphs),
        fc.constantFrom('angle', 'altitude', 'latitude', 'longitude'),
        (text, kind) => {
          try {
            const value = angle(text, { kind: kind as 'angle' });
            expect(Number.isFinite(value.degrees)).toBe(true);
            expect(value.text).toBe(text);
          } catch (error) {
            expect(error).toBeInstanceOf(EntryError);
            expect((error as EntryError).text).toBe(text);
          }
        },
      ),
      { numRuns: 3000 },
    );
  });
  test('anything that is not text is refused as such', () => {
    for (const given of [NaN, Infinity, 34.5, null, undefined, {}, []])
      expect(() => angle(given as unknown as string)).toThrow(EntryError);
  });
  test('NaN and infinity never become an angle', () => {
    for (const value of [NaN, Infinity, -Infinity]) {
      expect(() => Angle.degrees(value)).toThrow(OutOfRangeError);
      expect(() => Angle.arcminutes(value)).toThrow(OutOfRangeError);
      expect(() => Angle.zero.times(value)).toThrow(OutOfRangeError);
    }
  });
  test('normalized lies in 0–360 and signed in −180–180 for any finite angle', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }), (d) => {
        const turn = Angle.degrees(d).normalized().degrees;
        expect(turn >= 0 && turn < 360).toBe(true);
        const half = Angle.degrees(d).signed().degrees;
        expect(half > -180 && half <= 180).toBe(true);
      }),
    );
  });
});
