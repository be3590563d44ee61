import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  bearing,
  duration,
  EntryError,
  length,
  Position,
  position,
  pressure,
  speed,
  temperature,
  OutOfRangeError,
} from 'cocked-hat';

test.each([
  ['2.6 m', 2.6],
  ['2.6m', 2.6],
  ['9 ft', 2.7432],
  ['9 ft 6 in', 2.8956],
  ['3.1 nmi', 5741.2],
  ['2 cables', 370.4],
  ['−0.5 m', -0.5],
])('a length of %s is %d m', (text, metres) => {
  expect(length(text).metres).toBeCloseTo(metres, 6);
  expect(length(text).text).toBe(text);
});

test('other quantities are read with their units', () => {
  expect(speed('5.2 kn').knots).toBe(5.2);
  expect(speed('10 m/s').knots).toBeCloseTo(19.438, 3);
  expect(temperature('21 °C').celsius).toBe(21);
  expect(temperature('70 °F').celsius).toBeCloseTo(21.111, 3);
  expect(temperature('−3 C').celsius).toBe(-3);
  expect(pressure('1010 hPa').hectopascals).toBe(1010);
  expect(pressure('1010 mbar').hectopascals).toBe(1010);
  expect(pressure('29.92 inHg').hectopascals).toBeCloseTo(1013.2, 1);
  expect(duration('−1 m 12 s').seconds).toBe(-72);
  expect(duration('2 h 05 m').seconds).toBe(7500);
  expect(duration('0:01:12').seconds).toBe(72);
});

test.each([
  [() => length('2.6'), /no unit/],
  [() => length('2.6 M'), /metres or nautical miles/],
  [() => length('2,6 m'), /comma/],
  [() => length('high'), /starts with a number/],
  [() => length('2.6 kg'), /'kg' is not a unit/],
  [() => length('9 ft 12 in'), /under 12/],
  [() => temperature('21 °'), /which scale/],
  [() => pressure('1010'), /no unit/],
  [() => duration('72'), /no unit/],
  [() => duration('1:12'), /could be hours and minutes/],
  [() => duration('1 m 72 s'), /under 60/],
  [() => bearing('361°'), /cannot exceed 360/],
  [() => bearing('312° M'), /turned into a true one/],
  [() => bearing('N 91 E'), /cannot exceed 90/],
  [() => bearing('abeam'), /not a bearing/],
])('an impossible quantity is refused: %s', (read, message) => {
  expect(read).toThrow(EntryError);
  expect(read).toThrow(message);
  expect(read).toThrow(/Write/);
});

test.each([
  ['312°', 312],
  ['312', 312],
  ['007.5° T', 7.5],
  ['360°', 0],
  ['N 48° W', 312],
  ['S 10 E', 170],
  ['SSW', 202.5],
])('a bearing of %s is %d°', (text, degrees) => expect(bearing(text).degrees).toBe(degrees));

describe('a position', () => {
  test('prints as a navigator writes it and keeps what was typed', () => {
    const p = position('19°31′ S', '001°12′ W');
    expect(String(p)).toBe('19°31.0′ S, 001°12.0′ W');
    expect(p.text).toBe('19°31′ S, 001°12′ W');
    expect(p.toJSON()).toEqual({ latDeg: p.latDeg, lonDeg: p.lonDeg, text: p.text });
  });
  test('wraps its longitude to −180 (excluded) to 180', () => {
    expect(Position.degrees(0, 181).lonDeg).toBe(-179);
    expect(Position.degrees(0, -180).lonDeg).toBe(180);
    expect(Position.degrees(0, 540).lonDeg).toBe(180);
  });
  test('refuses more than 90° of latitude, and the wrong letter', () => {
    expect(() => Position.degrees(90.1, 0)).toThrow(OutOfRangeError);
    expect(() => Position.degrees(NaN, 0)).toThrow(OutOfRangeError);
    expect(() => position('19°31′ W', '001°12′ S')).toThrow(EntryError);
  });
});

test('any text gives a finite quantity or an EntryError that keeps the text', () => {
  const near = fc.string({
    unit: fc.constantFrom(...'0123456789.,-−+ mftkncablesNMhPaCF°:/'),
    maxLength: 12,
  });
  const readers = [length, speed, temperature, pressure, duration, bearing] as const;
  fc.assert(
    fc.property(fc.oneof(fc.string(), near), fc.constantFrom(...readers), (text, read) => {
      try {
        for (const value of Object.values(read(text)))
          if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(EntryError);
        expect((error as EntryError).text).toBe(text);
      }
    }),
    { numRuns: 3000 },
  );
});
