import { describe, expect, test } from 'vitest';
import {
  almanacHour,
  Angle,
  apparentPlace,
  EntryError,
  formatAngle,
  formatLatitude,
  ghaAries,
  Instant,
  type BodyName,
} from 'cocked-hat';

const hour = Instant.utc('2025-05-11 09:00:00 UTC');
const next = Instant.utc('2025-05-11 10:00:00 UTC');
const when = Instant.utc('2025-05-11 09:42:17 UTC');
/** A printed almanac's hours are UT1; an hour of UTC differs by DUT1, a fraction of 0.01′ here. */
const motion: Partial<Record<BodyName, number>> = { Moon: 14 + 19 / 60 };

/** The daily page as an almanac would print it: everything to a tenth. */
function page(body: BodyName) {
  const [a, b] = [apparentPlace(body, hour), apparentPlace(body, next)];
  const hourly = b.gha.minus(a.gha).normalized().degrees - (motion[body] ?? 15);
  const d = b.declination.minus(a.declination).arcminutes;
  return {
    body,
    hour: '2025-05-11 09:00 UTC',
    gha: formatAngle(a.gha.degrees),
    v: `${(hourly * 60).toFixed(1)}′`,
    declination: formatLatitude(a.declination.degrees),
    d: `${Math.abs(d).toFixed(1)}′ ${d < 0 ? 'S' : 'N'}`,
    source: 'a daily page made from this library, rounded to a tenth',
  };
}

describe('hourly figures of an almanac', () => {
  // Four roundings to 0.05′ may add up: 0.2′. This has no authority but the library itself.
  test.each(['Sun', 'Moon', 'Venus', 'Mars', 'Jupiter', 'Saturn'] as const)(
    'brought to the minute give the place of the %s within 0.2′',
    (body) => {
      const entry = almanacHour(page(body), when).value;
      const exact = apparentPlace(body, when);
      expect(Math.abs(entry.gha.minus(exact.gha).signed().arcminutes)).toBeLessThan(0.2);
      expect(Math.abs(entry.declination.minus(exact.declination).arcminutes)).toBeLessThan(0.2);
    },
  );
  test('of a star are GHA of Aries, increment and SHA', () => {
    const vega = apparentPlace('Vega', when);
    const working = almanacHour(
      {
        body: 'Vega',
        hour: '2025-05-11 09:00 UTC',
        gha: formatAngle(ghaAries(hour).degrees),
        sha: formatAngle(vega.sha.degrees),
        declination: formatLatitude(vega.declination.degrees),
        source: 'rounded to a tenth',
      },
      when,
    );
    expect(working.steps.map((s) => s.rule)).toEqual([
      'gha-at-the-hour',
      'increment',
      'sha',
      'declination',
    ]);
    expect(Math.abs(working.value.gha.minus(vega.gha).signed().arcminutes)).toBeLessThan(0.2);
    expect(working.steps.every((s) => s.source === 'rounded to a tenth')).toBe(true);
  });
  test('are refused outside their hour, off the hour, or without what the body needs', () => {
    const sun = page('Sun');
    const late = Instant.utc('2025-05-11 10:00:02 UTC');
    expect(() => almanacHour(sun, late)).toThrow(/not within the hour/);
    expect(() => almanacHour({ ...sun, hour: '2025-05-11 09:30 UTC' }, when)).toThrow(
      /whole hours/,
    );
    expect(() => almanacHour({ ...sun, sha: '80°' }, when)).toThrow(/leave sha out/);
    expect(() => almanacHour({ ...sun, body: 'Vega' }, when)).toThrow(/needs its SHA/);
    expect(() => almanacHour({ ...sun, body: 'Vega', sha: '400°' }, when)).toThrow(EntryError);
    expect(() => almanacHour({ ...sun, source: '' }, when)).toThrow(/Name the almanac/);
    expect(() => almanacHour({ ...sun, gha: Angle.degrees(400) }, when)).toThrow(EntryError);
  });
});
