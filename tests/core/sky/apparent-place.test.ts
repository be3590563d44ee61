import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  almanacEntry,
  apparentPlace,
  body,
  bodyNames,
  EntryError,
  ghaAries,
  Instant,
  newPlaceNumbers,
  OutOfRangeError,
  placeKernel,
  starNames,
  type BodyName,
} from 'cocked-hat';
import catalogue from '../../../data/nav-stars.json';

const when = Instant.utc('2027-05-11 09:42:17 UTC');

describe('bodies', () => {
  test('are the stars of the catalogue file, in its order, and six of the solar system', () => {
    expect(starNames).toEqual(catalogue.stars.map((s) => s.name));
    expect(starNames).toHaveLength(58);
    expect(bodyNames).toHaveLength(64);
  });
  test('are found whatever the capitals, and a slip of the pen is answered with the nearest name', () => {
    expect(body('  rigil kentaurus ')).toBe('Rigil Kentaurus');
    expect(body("al na'ir")).toBe("Al Na'ir");
    expect(body('Rigil Kent.')).toBe('Rigil Kentaurus');
    expect(body("Zuben'ubi")).toBe('Zubenelgenubi');
    expect(() => body('Aldebran')).toThrow(/Did you mean Aldebaran/);
    expect(() => body('Pluto')).toThrow(EntryError);
    expect(() => body(undefined as unknown as string)).toThrow(EntryError);
    expect(() => apparentPlace('Betelgeuze' as BodyName, when)).toThrow(/Betelgeuse/);
  });
});

describe('an apparent place', () => {
  test('is frozen, with GHA = GHA Aries + SHA', () => {
    for (const name of bodyNames) {
      const place = apparentPlace(name, when);
      expect(Object.isFrozen(place)).toBe(true);
      const sum = ghaAries(when).plus(place.sha).minus(place.gha).signed();
      expect(Math.abs(sum.degrees)).toBeLessThan(1e-9);
      expect(place.declination.degrees).toBeGreaterThan(-90);
      expect(place.source).not.toBe('');
    }
  });
  test('gives parallax and size to what has them', () => {
    expect(apparentPlace('Moon', when).horizontalParallax.arcminutes).toBeGreaterThan(53);
    expect(apparentPlace('Sun', when).semidiameter.arcminutes).toBeCloseTo(15.8, 0);
    expect(apparentPlace('Vega', when).horizontalParallax.degrees).toBe(0);
    expect(apparentPlace('Vega', when).distanceKm).toBeUndefined();
    expect(apparentPlace('Vega', when).magnitude).toBe(0.03);
  });
  test('says what limits it', () => {
    expect(apparentPlace('Sun', when).notes.join()).toMatch(/rotation is predicted/);
    expect(apparentPlace('Sirius', when).notes.join()).toMatch(/binary/);
    expect(apparentPlace('Sun', Instant.utc('1944-06-06 05:00:00')).notes.join()).toMatch(
      /astronomy-engine/,
    );
    expect(apparentPlace('Sun', Instant.utc('2020-01-01 00:00:00')).notes).toEqual([]);
  });
  test('at the same TT with another UT1 turns with the Earth, not from a stale cache', () => {
    const tt = 2461537;
    const a = { ...placeKernel('Vega', tt, tt, newPlaceNumbers()) };
    const b = placeKernel('Vega', tt, tt + 1 / 86400, newPlaceNumbers());
    expect((b.ghaDeg - a.ghaDeg) * 3600).toBeCloseTo(15.041, 2);
  });
  test('does not jump where the ephemeris begins and ends', () => {
    for (const jd of [2433278.75, 2471181.25])
      for (const name of ['Sun', 'Moon', 'Venus', 'Saturn', 'Vega'] as const) {
        const dec = [-0.6, 0.6].map(
          (d) => placeKernel(name, jd + d, jd + d, newPlaceNumbers()).decDeg,
        );
        // The Moon moves up to 8° in declination in 1.2 days, the others under 0.6°.
        expect(Math.abs((dec[1] ?? NaN) - (dec[0] ?? NaN))).toBeLessThan(name === 'Moon' ? 8 : 0.6);
      }
  });
  test('is refused for a time that is none, or out of range, never NaN', () => {
    expect(() => apparentPlace('Sun', '2027-05-11' as unknown as Instant)).toThrow(
      /Write Instant.utc/,
    );
    expect(() => ghaAries(undefined as unknown as Instant)).toThrow(EntryError);
    const out = newPlaceNumbers();
    fc.assert(
      fc.property(fc.constantFrom(...bodyNames), fc.double(), fc.double(), (name, tt, ut1) => {
        try {
          placeKernel(name, tt, ut1, out);
          expect(Number.isFinite(out.ghaDeg + out.decDeg)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(OutOfRangeError);
        }
      }),
    );
    expect(() => placeKernel('Vega', 2461537, NaN, out)).toThrow(OutOfRangeError);
    expect(() => placeKernel('Vega', 2600000, 2600000, out)).toThrow(/1600 to 2200/);
  });
  test('is finite for every body at any time covered, and moves smoothly', () => {
    const names = fc.constantFrom(...bodyNames);
    const jd = fc.double({ min: 2305449, max: 2524958, noNaN: true });
    fc.assert(
      fc.property(names, jd, (name, tt) => {
        const p = placeKernel(name, tt, tt, newPlaceNumbers());
        expect(Number.isFinite(p.ghaDeg + p.decDeg + p.hpArcmin + p.sdArcmin)).toBe(true);
        expect(p.ghaDeg >= 0 && p.ghaDeg < 360).toBe(true);
        const later = placeKernel(name, tt + 1e-4, tt, newPlaceNumbers());
        expect(Math.abs(later.decDeg - p.decDeg)).toBeLessThan(0.002);
      }),
      { numRuns: 400 },
    );
  });
});

describe('an almanac’s figures typed in', () => {
  test('are kept with their text and source', () => {
    const entry = almanacEntry({
      gha: '213°45.2′',
      declination: 'N 18°12.4′',
      sd: '15.8′',
      hp: '57.3′',
      source: 'a printed almanac, 2027, p. 95',
    });
    expect(entry.gha.text).toBe('213°45.2′');
    expect(entry.declination.degrees).toBeCloseTo(18 + 12.4 / 60, 9);
    expect(entry.semidiameter.arcminutes).toBeCloseTo(15.8, 9);
    expect(Object.isFrozen(entry)).toBe(true);
  });
  test.each([
    [{ gha: '360°', declination: 'N 1°', source: 'x' }, /0° to 359°59.9′/],
    [{ gha: '-1°', declination: 'N 1°', source: 'x' }, /0° to 359°59.9′/],
    [{ gha: '213°45.2′', declination: '18°12.4′', source: 'x' }, /N or S is missing/],
    [{ gha: '213°45.2′', declination: 'N 91°', source: 'x' }, /cannot exceed 90°/],
    [{ gha: '213°45.2′', declination: 'N 18°', sd: '18′', source: 'x' }, /between 0′ and 17′/],
    [{ gha: '213°45.2′', declination: 'N 18°', hp: '73′', source: 'x' }, /between 0′ and 62′/],
    [{ gha: '213°45.2′', declination: 'N 18°', source: ' ' }, /Name the almanac/],
  ])('are refused when impossible: %j', (fields, message) => {
    expect(() => almanacEntry(fields)).toThrow(EntryError);
    expect(() => almanacEntry(fields)).toThrow(message);
  });
});
