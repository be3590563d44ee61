import { expect, test } from 'vitest';
import {
  Angle,
  compassByAzimuth,
  exMeridian,
  indexErrorFromSun,
  Instant,
  longitudeByEqualAltitudes,
  meridianAltitude,
  Duration,
  position,
  setAndDrift,
  sight,
  timeSight,
  Uncertainty,
  workingData,
  type Working,
} from '../../src/index.js';
import { unbroken } from '../../src/lab/render/unbroken.js';

const dr = position('21°47′ S', '009°40′ W');
const noon = sight({
  body: 'Sun',
  limb: 'lower',
  reading: '51°08.0′',
  time: '2027-05-06 12:35:00 UTC',
  eyeHeight: '2.6 m',
  dr,
});
const running = (working: Working<unknown>, rule: string) =>
  workingData(working).rows.find((row) => row.rule === rule)?.running;

test('a latitude and a declination stand in a working with their letter, not with a sign', () => {
  for (const working of [meridianAltitude(noon), exMeridian(noon)]) {
    const found = working.value.negated();
    expect(found.degrees).toBeGreaterThan(0);
    expect(running(working, 'latitude')).toBe(`${found.toString()} S`);
    expect(running(working, 'declination')).toMatch(/^16°\d\d\.\d′ N$/);
    expect(workingData(working).value).toBe(`${found.toString()} S`);
  }
});

test('a longitude, a bearing and a compass error are written as a navigator writes them', () => {
  const rising = Instant.utc('2027-05-06 10:00:00 UTC');
  const falling = Instant.utc('2027-05-06 15:10:00 UTC');
  const equal = longitudeByEqualAltitudes({ body: 'Sun', rising, falling, dr });
  const west = timeSight(
    sight({ ...noon.fields, time: '2027-05-06 16:00:00 UTC', reading: '20°00.0′' }),
  );
  for (const working of [equal, west])
    expect(running(working, 'longitude')).toMatch(/^\d{3}°\d\d\.\d′ [EW]$/);

  const compass = compassByAzimuth({
    body: 'Sun',
    instant: falling,
    position: dr,
    compassBearing: '324',
    variation: Angle.degrees(-15),
  });
  const error = compass.value.degrees;
  expect(error).toBeLessThan(0);
  expect(running(compass, 'true azimuth')).toBe(`${(324 + error).toFixed(1)}°`);
  expect(running(compass, 'compass error')).toBe(`${(-error).toFixed(1)}° W`);
  expect(running(compass, 'deviation')).toBe(
    `${Math.abs(error + 15).toFixed(1)}° ${error + 15 < 0 ? 'W' : 'E'}`,
  );

  const drift = setAndDrift(dr, position('21°47′ S', '009°30′ W'), Duration.hours(6));
  expect(running(drift, 'DR to fix')).toBe('090°');

  const index = indexErrorFromSun({ on: '30.2′', off: '33.0′', semidiameter: '15.8′' });
  expect(running(index, 'index-error')).toBe('1.4′ off the arc');
});

test('an uncertainty too small for a tenth has a hundredth, never nought', () => {
  const of = (sigmaArcmin: number) => String(new Uncertainty([{ cause: 'phase', sigmaArcmin }]));
  expect([0.02, 0.049, 0.05, 0.7].map(of)).toEqual([
    '± 0.02′, 1σ',
    '± 0.05′, 1σ',
    '± 0.1′, 1σ',
    '± 0.7′, 1σ',
  ]);
});

test('on a page a figure keeps its letter or unit beside it', () => {
  const held = (text: string) => unbroken(text).replaceAll('\u00a0', '_');
  expect(held('Ho 51°37.0′, Dec 16°32.7′ N, meridian angle 0°26.8′ E')).toBe(
    'Ho 51°37.0′, Dec 16°32.7′_N, meridian angle 0°26.8′_E',
  );
  expect(held('set 053°, drift 1.0 kn (5.7 nm)')).toBe('set 053°, drift 1.0_kn (5.7_nm)');
  expect(held('12:31:05 UTC ± 48 s, 1σ')).toBe('12:31:05_UTC ±_48_s, 1σ');
  // No unit: the line may break.
  expect(held('3 sights, 2 nmx')).toBe('3 sights, 2 nmx');
});
