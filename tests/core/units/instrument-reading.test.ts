import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drumReading, EntryError, vernierReading } from 'cocked-hat';

describe('a micrometer drum', () => {
  test('adds degrees, minutes and the vernier on the arc', () => {
    const reading = drumReading({ arcDeg: 34, drumMinutes: 17, vernierMinutes: 0.6 });
    expect(reading.degrees).toBeCloseTo(34 + 17.6 / 60, 12);
    expect(reading.text).toBe('34°17.6′');
  });
  test('runs backward off the arc: 57′ on the drum is 3′ off', () => {
    const reading = drumReading({
      arcDeg: 0,
      drumMinutes: 57,
      vernierMinutes: 0.4,
      offTheArc: true,
    });
    expect(reading.arcminutes).toBeCloseTo(-2.6, 12);
    expect(reading.text).toBe('0°02.6′ off the arc');
  });
  test('at zero off the arc is zero', () =>
    expect(drumReading({ arcDeg: 0, drumMinutes: 0, offTheArc: true }).degrees).toBe(0));
  test.each([
    [{ arcDeg: 34.5, drumMinutes: 17 }],
    [{ arcDeg: 151, drumMinutes: 0 }],
    [{ arcDeg: -1, drumMinutes: 0 }],
    [{ arcDeg: 34, drumMinutes: 60 }],
    [{ arcDeg: 34, drumMinutes: 17, vernierMinutes: 1 }],
    [{ arcDeg: 11, drumMinutes: 0, offTheArc: true }],
    [{ arcDeg: NaN, drumMinutes: 0 }],
    [{ arcDeg: 1, drumMinutes: NaN }],
  ])('refuses %j', (figures) => expect(() => drumReading(figures)).toThrow(EntryError));
});

describe('a vernier', () => {
  test('adds the graduation passed and its own minutes', () =>
    expect(
      vernierReading({ arcDeg: 34, arcMinutes: 10, vernierMinutes: 7.5, divisionMinutes: 10 })
        .degrees,
    ).toBeCloseTo(34 + 17.5 / 60, 12));
  test('is read backward off the arc', () =>
    expect(
      vernierReading({
        arcDeg: 0,
        arcMinutes: 0,
        vernierMinutes: 7,
        divisionMinutes: 10,
        offTheArc: true,
      }).arcminutes,
    ).toBeCloseTo(-3, 12));
  test.each([
    [{ arcDeg: 34, arcMinutes: 15, vernierMinutes: 1, divisionMinutes: 10 }],
    [{ arcDeg: 34, arcMinutes: 10, vernierMinutes: 11, divisionMinutes: 10 }],
    [{ arcDeg: 34, vernierMinutes: 1, divisionMinutes: 7 }],
    [{ arcDeg: 34, vernierMinutes: NaN, divisionMinutes: 10 }],
  ])('refuses %j', (figures) => expect(() => vernierReading(figures)).toThrow(EntryError));
});

test('moving the index by any amount from one side of zero to the other moves the reading by as much', () => {
  fc.assert(
    fc.property(fc.integer({ min: -599, max: 8999 }), (tenMinutes) => {
      // What drum and arc show at that true angle, in tenths of a minute: the drum shows the fraction above the whole degree below.
      const tenths = tenMinutes;
      const off = tenths < 0;
      const inDegree = ((tenths % 600) + 600) % 600;
      const shown = Math.floor(inDegree / 10);
      const passed = off ? Math.floor(-tenths / 600) : Math.floor(tenths / 600);
      const reading = drumReading({
        arcDeg: passed,
        drumMinutes: shown,
        vernierMinutes: (inDegree % 10) / 10,
        offTheArc: off,
      });
      expect(reading.arcminutes * 10).toBeCloseTo(tenths, 6);
    }),
  );
});
