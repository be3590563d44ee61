import { compassByAzimuth, Instant, magneticVariation, Position } from 'cocked-hat';
import { expect, test } from 'vitest';
import { gate } from './gate.js';
import { variationChecks } from './variation.checks.js';

gate('magnetic variation', variationChecks());

const at = Instant.utc('2027-05-11 15:10:00 UTC');

test('the variation goes into the compass check and leaves the deviation', () => {
  const here = Position.degrees(-19.5, -1.2);
  const variation = magneticVariation(here, at).value;
  const check = { body: 'Sun', instant: at, position: here, compassBearing: '324' } as const;
  const error = compassByAzimuth(check).value;
  const split = compassByAzimuth({ ...check, variation });
  expect(split.step('deviation').written).toBe(
    `${Math.abs(error.minus(variation).degrees).toFixed(1)}° ${error.degrees < variation.degrees ? 'W' : 'E'}`,
  );
});

test('outside the years of the models the chart is asked', () => {
  expect(() =>
    magneticVariation(Position.degrees(0, 0), Instant.utc('2035-01-01 00:00:00 UTC')),
  ).toThrow(/not on 2035-01-01: take the variation from the chart/);
});

test('at a magnetic pole no variation is given, near it the compass is called unsure', () => {
  // North magnetic pole of 2025 by WMM2025: 85.8° N, 139.3° E; 3000 nT lie some degrees from it (from memory).
  expect(() => magneticVariation(Position.degrees(85.8, 139.3), at)).toThrow(/no compass points/);
  expect(magneticVariation(Position.degrees(80, -100), at).flags.join()).toMatch(/sluggish/);
});
