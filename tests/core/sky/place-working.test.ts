import { expect, test } from 'vitest';
import { apparentPlace, Instant, placeWorking } from 'cocked-hat';

const when = Instant.utc('2027-05-11 09:42:17 UTC');

test('the working of a star runs from UTC over Aries and SHA to the very place computed', () => {
  const working = placeWorking('Vega', when);
  expect(working.steps.map((s) => s.rule)).toEqual([
    'utc',
    'ut1',
    'tt',
    'gha-aries',
    'sha',
    'gha',
    'declination',
  ]);
  expect(working.value).toBe(working.steps.at(-1)?.result);
  expect(working.value.gha.degrees).toBe(apparentPlace('Vega', when).gha.degrees);
  expect(working.step('gha').figures).toMatch(/^\d{3}°\d\d\.\d′ \+ \d{3}°\d\d\.\d′( − 360°)?$/);
  expect(working.steps.every((s) => s.source !== '')).toBe(true);
});

test('that of the Moon has parallax and size, and a predicted rotation of the Earth is a caution', () => {
  const working = placeWorking('Moon', when);
  expect(working.step('hp-sd').figures).toMatch(/^HP \d\d\.\d′, SD 1\d\.\d′$/);
  expect(working.cautions.join()).toMatch(/predicted by the IERS/);
  expect(placeWorking('Moon', Instant.utc('2020-01-01 00:00:00')).cautions).toEqual([]);
});

test('outside the ephemeris a flag says where the place is from', () => {
  expect(placeWorking('Sun', Instant.utc('1944-06-06 05:00:00')).flags.join()).toMatch(
    /astronomy-engine/,
  );
  expect(placeWorking('Sun', when).flags).toEqual([]);
});
