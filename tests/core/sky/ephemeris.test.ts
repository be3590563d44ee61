import { createHash } from 'node:crypto';
import fs from 'node:fs';
import { pathToFileURL } from 'node:url';
import { afterEach, describe, expect, test } from 'vitest';
import {
  apparentPlace,
  cutEphemeris,
  ephemerisFromBytes,
  EphemerisFile,
  Instant,
  newPlaceNumbers,
  OutOfRangeError,
  placeKernel,
  provideEphemeris,
  providedEphemeris,
} from 'cocked-hat';

const FILE = 'data/ephemeris-1950-2053.bin';
const whole = providedEphemeris();
const file = () => new EphemerisFile(pathToFileURL(FILE));
const when = Instant.utc('2027-05-11 09:42:17 UTC');
afterEach(() => provideEphemeris(whole));

describe('the ephemeris file', () => {
  test('has the checksum noted beside it', () => {
    const digest = createHash('sha256').update(fs.readFileSync(FILE)).digest('hex');
    expect(fs.readFileSync('data/SHA256SUMS', 'utf8')).toContain(
      `${digest}  ephemeris-1950-2053.bin`,
    );
  });
  test('is not touched before the first place, of which the Moon’s costs under 50 kB', () => {
    const source = file();
    provideEphemeris(source);
    expect(source.bytesRead).toBe(0);
    apparentPlace('Moon', when);
    expect(source.bytesRead).toBeGreaterThan(0);
    expect(source.bytesRead).toBeLessThan(50_000);
    const before = source.bytesRead;
    apparentPlace('Moon', when);
    expect(source.bytesRead).toBe(before);
  });
});

describe('a cut of it', () => {
  const bytes = cutEphemeris(file(), 2027, 2027);
  test('takes under 10 kB for one year', () => {
    expect(bytes.length).toBeLessThan(10_000);
  });
  test('gives the same places as the whole, but for the last digits of a Julian date', () => {
    const names = ['Sun', 'Moon', 'Venus', 'Mars', 'Jupiter', 'Saturn', 'Vega'] as const;
    const jds = Array.from({ length: 60 }, (_, i) => 2461406.5 + i * 6.17);
    const all = () =>
      names.flatMap((n) => jds.map((jd) => ({ ...placeKernel(n, jd, jd, newPlaceNumbers()) })));
    const fromWhole = all();
    provideEphemeris(ephemerisFromBytes(bytes, 'cut 2027'));
    for (const [i, place] of all().entries()) {
      expect(Math.abs(place.decDeg - (fromWhole[i]?.decDeg ?? NaN))).toBeLessThan(1e-8);
      const gha = Math.abs(place.ghaDeg - (fromWhole[i]?.ghaDeg ?? NaN));
      expect(gha).toBeLessThan(1e-8);
    }
    expect(apparentPlace('Moon', when).source).toBe('JPL DE421 (cut 2027)');
  });
  test('can be cut again, and outside it the place says that it is from astronomy-engine', () => {
    const again = cutEphemeris(
      ephemerisFromBytes(cutEphemeris(file(), 2026, 2028), 'cut'),
      2027,
      2027,
    );
    expect(again.length).toBe(bytes.length);
    provideEphemeris(ephemerisFromBytes(again, 'cut 2027'));
    expect(apparentPlace('Sun', Instant.utc('2030-01-01 00:00:00')).source).toBe(
      'astronomy-engine',
    );
  });
  test('is refused for years the file has not got, or in disorder', () => {
    expect(() => cutEphemeris(file(), 1949, 1951)).toThrow(OutOfRangeError);
    expect(() => cutEphemeris(file(), 2052, 2054)).toThrow(OutOfRangeError);
    expect(() => cutEphemeris(file(), 2028, 2027)).toThrow(OutOfRangeError);
    expect(() => cutEphemeris(file(), NaN, 2027)).toThrow(OutOfRangeError);
  });
});

describe('a damaged file', () => {
  test('is refused by name, not read as numbers', () => {
    const bytes = new Uint8Array(fs.readFileSync(FILE));
    provideEphemeris(ephemerisFromBytes(bytes.subarray(0, 5000), 'a short file'));
    expect(() => apparentPlace('Moon', when)).toThrow(/a short file is cut short/);
    provideEphemeris(ephemerisFromBytes(new Uint8Array(100), 'zeros'));
    expect(() => apparentPlace('Moon', when)).toThrow(/zeros is not an ephemeris file/);
    provideEphemeris(ephemerisFromBytes(new Uint8Array(0), 'nothing'));
    expect(() => apparentPlace('Moon', when)).toThrow(/nothing is not an ephemeris file/);
  });
  test('that does not exist is named', () => {
    provideEphemeris(new EphemerisFile(pathToFileURL('data/no-such.bin')));
    expect(() => apparentPlace('Moon', when)).toThrow(/no-such\.bin/);
  });
});

test('without any ephemeris astronomy-engine gives the place and says so', () => {
  const exact = apparentPlace('Mars', when);
  provideEphemeris(undefined);
  const rough = apparentPlace('Mars', when);
  expect(rough.source).toBe('astronomy-engine');
  expect(Math.abs(rough.gha.minus(exact.gha).signed().arcminutes)).toBeLessThan(0.3);
  expect(rough.gha.degrees).not.toBe(exact.gha.degrees);
});
