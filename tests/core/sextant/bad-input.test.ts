import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import {
  Angle,
  celsius,
  EntryError,
  hectopascals,
  Length,
  observedAltitude,
  OutOfRangeError,
  sight,
  type SightFields,
} from 'cocked-hat';
import { forenoon, without } from './examples.js';

/** Works a sight; the value must be finite, or the error one of ours. */
function finiteOrTyped(make: () => SightFields): void {
  try {
    const w = observedAltitude(sight(make()));
    expect(Number.isFinite(w.value.degrees)).toBe(true);
    expect(Number.isFinite(w.uncertainty.sigma.degrees)).toBe(true);
    for (const s of w.steps) expect(s.figures).not.toMatch(/NaN|Infinity|undefined/);
  } catch (error) {
    if (!(error instanceof EntryError || error instanceof OutOfRangeError)) throw error;
    expect(error.message.length).toBeGreaterThan(10);
    expect(error.message).not.toMatch(/undefined/);
  }
}
const unusual = fc.oneof(fc.double(), fc.constantFrom(NaN, Infinity, -Infinity, 0, -0, 1e308));

describe('bad input never makes a silent NaN', () => {
  test.each([
    'reading',
    'time',
    'indexError',
    'eyeHeight',
    'temperature',
    'pressure',
    'body',
    'limb',
    'horizon',
    'course',
    'speed',
    'sigma',
    'waterlineDistance',
    'refractionModel',
  ])('any text as %s', (field) =>
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'0123456789.°′ -+NSmof') })),
        (text) => finiteOrTyped(() => ({ ...forenoon, [field]: text })),
      ),
      { numRuns: 60 },
    ),
  );
  test.each([
    'reading',
    'time',
    'indexError',
    'eyeHeight',
    'dr',
    'place',
    'watch',
    'instrumentTable',
    'errorBudget',
    'temperature',
    'pressure',
    'course',
    'speed',
    'sigma',
    'waterlineDistance',
    'horizon',
    'limb',
    'body',
  ])('any JSON as %s', (field) =>
    fc.assert(
      fc.property(fc.jsonValue(), (value) =>
        finiteOrTyped(() => ({ ...forenoon, [field]: value }) as SightFields),
      ),
      { numRuns: 60 },
    ),
  );
  test('any numbers as reading, eye, air', () => {
    fc.assert(
      fc.property(unusual, unusual, unusual, unusual, (reading, eye, temperature, pressure) =>
        finiteOrTyped(() => ({
          ...forenoon,
          reading: Angle.degrees(reading),
          eyeHeight: Length.metres(eye),
          temperature: celsius(temperature),
          pressure: hectopascals(pressure),
        })),
      ),
      { numRuns: 300 },
    );
  });
  test('any reading an arc can show, any body, any horizon', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -6, max: 150, noNaN: true }),
        fc.constantFrom('Sun', 'Moon', 'Venus', 'Vega' as const),
        fc.constantFrom('natural', 'artificial', 'bubble' as const),
        (reading, body, horizon) => {
          finiteOrTyped(() => ({
            ...without(forenoon, 'limb'),
            body,
            horizon,
            reading: Angle.degrees(reading),
          }));
        },
      ),
      { numRuns: 300 },
    );
  });
  test.each([
    '1600-01-01 00:00:00',
    '2200-12-31 23:59:59',
    '0001-01-01 00:00:00',
    '9999-12-31 23:59:59',
  ])('a date far out of range: %s', (time) => finiteOrTyped(() => ({ ...forenoon, time })));
});
