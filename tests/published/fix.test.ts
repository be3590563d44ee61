import {
  Angle,
  apparentPlace,
  computedAltitude,
  fix,
  Instant,
  Position,
  type AltitudeObservation,
  type BodyName,
} from 'cocked-hat';
import { describe, expect, test } from 'vitest';
import formulas from './fixtures/reduction-formulas.json';

/**
 * The Nautical Almanac's procedure for a position from intercepts (sight reduction procedures; sums A–G, corrections, sigma
 * and ellipse: from memory, normal equations derived again; see fixtures/reduction-formulas.json, na-fix), worked
 * here as printed, in degrees, beside the library's own least squares. The inputs are the almanac's own worked fix, 2020
 * edition, p. 282 (fetched as a quotation; its printed fix was not to be seen, so only the procedure is compared).
 */
const START = { lat: 32, lon: -15, course: 325, knots: 20 };
const FIX_TIME = '2020-07-06 21:00:00 UTC';
const SIGHTS: readonly [BodyName, string, number][] = [
  ['Regulus', '2020-07-06 20:39:23 UTC', 24.981],
  ['Antares', '2020-07-06 20:45:47 UTC', 26.8969],
  ['Kochab', '2020-07-06 21:10:34 UTC', 47.4869],
];
const rad = Math.PI / 180;

function almanacFix() {
  let [lat, lon] = [START.lat, START.lon];
  const at = Instant.utc(FIX_TIME);
  let sums = { a: 0, b: 0, c: 0, d: 0, e: 0, f: 0, g: 0 };
  let last = { dLat: 0, dLon: 0 };
  for (let pass = 0; pass < 5; pass++) {
    sums = { a: 0, b: 0, c: 0, d: 0, e: 0, f: 0, g: 0 };
    for (const [body, time, ho] of SIGHTS) {
      const t = Instant.utc(time);
      const hours = t.minus(at).hours;
      const there = Position.degrees(
        lat + (hours * START.knots * Math.cos(START.course * rad)) / 60,
        lon + (hours * START.knots * Math.sin(START.course * rad)) / 60 / Math.cos(lat * rad),
      );
      const place = apparentPlace(body, t);
      const { altitude, azimuth } = computedAltitude(there, place.gha, place.declination);
      const [p, z] = [ho - altitude.degrees, azimuth.radians];
      sums.a += Math.cos(z) ** 2;
      sums.b += Math.cos(z) * Math.sin(z);
      sums.c += Math.sin(z) ** 2;
      sums.d += p * Math.cos(z);
      sums.e += p * Math.sin(z);
      sums.f += p * p;
    }
    const { a, b, c, d, e } = sums;
    sums.g = a * c - b * b;
    last = {
      dLat: (c * d - b * e) / sums.g,
      dLon: (a * e - b * d) / (sums.g * Math.cos(lat * rad)),
    };
    lat += last.dLat;
    lon += last.dLon;
  }
  const { a, b, c, f, g } = sums;
  const s = f; // the corrections of the last pass are nil
  const n = SIGHTS.length;
  const sigma = 60 * Math.sqrt(s / (n - 2));
  const theta = 0.5 * Math.atan2(2 * b, a - c);
  const k = Math.sqrt(-2 * Math.log(1 - 0.95));
  return {
    lat,
    lon,
    last,
    sigma,
    sigmaLat: sigma * Math.sqrt(c / g),
    sigmaLon: sigma * Math.sqrt(a / g),
    major: (sigma * k) / Math.sqrt(n / 2 - Math.abs(b / Math.sin(2 * theta))),
    minor: (sigma * k) / Math.sqrt(n / 2 + Math.abs(b / Math.sin(2 * theta))),
  };
}

function observations(): AltitudeObservation[] {
  return SIGHTS.map(([body, time, ho]) => {
    const instant = Instant.utc(time);
    const { gha, declination } = apparentPlace(body, instant);
    return {
      body,
      instant,
      observed: Angle.degrees(ho),
      gha,
      declination,
      causes: [{ cause: 'observer', sigmaArcmin: 1 }],
    };
  });
}

describe('position from intercept and azimuth, the almanac’s procedure', () => {
  const theirs = almanacFix();
  const start = Position.degrees(START.lat, START.lon);
  const options = {
    dr: start,
    at: Instant.utc(FIX_TIME),
    course: `${START.course}°`,
    speed: `${START.knots} kn`,
    courseSigma: '0°',
    speedSigma: '0 kn',
    method: 'ellipse',
  } as const;
  const ours = fix(observations(), options);

  test('the printed inputs belong together: the fix lies within 40 miles of the start and repeats', () => {
    expect(Math.abs(theirs.lat - START.lat) * 60).toBeLessThan(40);
    expect(Math.abs(theirs.last.dLat) * 60).toBeLessThan(0.001);
  });
  test('the position agrees to 0.1′', () => {
    // Seven miles of run on the sphere of 1′ = 1 mile and on the ellipsoid differ by up to 0.04 miles.
    expect(Math.abs(ours.position.latDeg - theirs.lat) * 60).toBeLessThan(0.1);
    expect(Math.abs(ours.position.lonDeg - theirs.lon) * 60).toBeLessThan(0.1);
  });
  test('sigma, its parts and the 95 % ellipse agree to the almanac’s 0.1 mile', () => {
    const scaled = fix(observations(), { ...options, sigma: Angle.arcminutes(theirs.sigma) });
    const c = scaled.covariance as number[][];
    expect(ours.scatter?.arcminutes).toBeCloseTo(theirs.sigma, 1);
    expect(Math.sqrt(c[0]?.[0] as number)).toBeCloseTo(theirs.sigmaLat, 1);
    expect(Math.sqrt(c[1]?.[1] as number)).toBeCloseTo(theirs.sigmaLon, 1);
    expect(scaled.region(0.95).semiMajor.nauticalMiles).toBeCloseTo(theirs.major, 1);
    expect(scaled.region(0.95).semiMinor.nauticalMiles).toBeCloseTo(theirs.minor, 1);
  });
  test('the printed factors k', () => {
    const list = formulas.entries.find((e) => e.id === 'na-fix');
    expect(JSON.stringify(list)).toContain('P 0.39 1.0, 0.50 1.2, 0.75 1.7, 0.90 2.1, 0.95 2.4');
    const one = fix(observations(), options);
    const k = (p: number) =>
      one.region(p).semiMajor.nauticalMiles / one.region(0.3934693).semiMajor.nauticalMiles;
    for (const [p, printed] of [
      [0.39, 1.0],
      [0.5, 1.2],
      [0.75, 1.7],
      [0.9, 2.1],
      [0.95, 2.4],
    ] as const)
      expect(Math.abs(k(p) - printed)).toBeLessThan(0.051);
  });
});
