import {
  Angle,
  altitudeKernel,
  assumedPosition,
  azimuthAngle,
  azimuthFromName,
  CircleOfEqualAltitude,
  computedAltitude,
  computedAltitudeWorking,
  EntryError,
  Length,
  OutOfRangeError,
  position,
  Position,
  positionLine,
  reduce,
  rhumbBetween,
  rhumbDestination,
  seededRandom,
  sight,
  trueAzimuth,
} from 'cocked-hat';
import { describe, expect, test } from 'vitest';

const deg = (x: number) => Angle.degrees(x);

describe('the three routes agree', () => {
  test('at a thousand random places to 0.001′ in altitude and 0.001° in azimuth', () => {
    const rng = seededRandom(2);
    for (let i = 0; i < 1000; i++) {
      const p = Position.degrees(178 * rng.uniform() - 89, 360 * rng.uniform() - 180);
      const [gha, dec] = [deg(360 * rng.uniform()), deg(178 * rng.uniform() - 89)];
      const exact = computedAltitude(p, gha, dec);
      // Arcsines and arccosines lose digits near the zenith and near the meridian.
      if (exact.altitude.degrees > 88 || exact.altitude.degrees < -88) continue;
      for (const route of ['almanac', 'cosine', 'haversine'] as const) {
        const { value } = computedAltitudeWorking(p, gha, dec, route);
        expect(value.altitude.minus(exact.altitude).abs().arcminutes, route).toBeLessThan(0.001);
        expect(Math.abs(value.azimuth.minus(exact.azimuth).signed().degrees), route).toBeLessThan(
          0.001,
        );
      }
    }
  });
  test.each([
    ['north pole', 90, 0, 40, 20],
    ['south pole', -90, 0, 40, -20],
    ['body in the zenith', 20, 0, 0, 20],
    ['LHA 0', 40, -30, 30, 10],
    ['LHA 180', 40, -30, 210, 60],
    ['LHA 0, body between zenith and pole', 40, 0, 0, 70],
    ['on the equator, on the prime vertical', 0, 0, 300, 0],
  ])('at the edge: %s', (_, lat, lon, gha, dec) => {
    const p = Position.degrees(lat, lon);
    const exact = computedAltitude(p, deg(gha), deg(dec));
    for (const route of ['almanac', 'cosine', 'haversine'] as const) {
      const { value } = computedAltitudeWorking(p, deg(gha), deg(dec), route);
      expect(Math.abs(value.altitude.minus(exact.altitude).arcminutes), route).toBeLessThan(0.001);
      expect(value.azimuthDefined, route).toBe(exact.azimuthDefined);
      if (exact.azimuthDefined)
        expect(Math.abs(value.azimuth.minus(exact.azimuth).signed().degrees), route).toBeLessThan(
          1e-5,
        );
    }
  });
});

describe('azimuths', () => {
  test('a body east of the meridian bears east, in every quadrant and both hemispheres', () => {
    for (const lat of [-50, 50])
      for (const dec of [-20, 20]) {
        const east = altitudeKernel(lat, 0, 300, dec).azDeg;
        const west = altitudeKernel(lat, 0, 60, dec).azDeg;
        expect(east).toBeLessThan(180);
        expect(west).toBeCloseTo(360 - east, 9);
      }
  });
  test.each([
    ['N', 40, 'E', 40],
    ['N', 40, 'W', 320],
    ['S', 40, 'E', 140],
    ['S', 40, 'W', 220],
    ['N', 0, 'E', 0],
    ['N', 180, 'W', 180],
    ['S', 180, 'W', 0],
  ] as const)('%s %i° %s is %i° true', (from, z, towards, zn) => {
    expect(trueAzimuth(from, deg(z), towards).degrees).toBe(zn);
    expect(azimuthFromName(`${from} ${z}° ${towards}`).degrees).toBe(zn);
  });
  test('naming goes there and back', () => {
    for (let zn = 0; zn < 360; zn += 15)
      for (const lat of [-30, 30]) {
        const a = azimuthAngle(deg(zn), lat);
        expect(trueAzimuth(a.from, a.angle, a.towards).degrees).toBeCloseTo(zn, 9);
      }
  });
  test('a wrong name shows the right form', () => {
    expect(() => azimuthFromName('N 190° E')).toThrow(EntryError);
    expect(() => azimuthFromName('101.5')).toThrow(/N 101\.5° W/);
  });
});

describe('signs and wraps', () => {
  test('longitudes a turn apart give the same altitude', () => {
    for (const turn of [-360, 0, 360])
      expect(altitudeKernel(30, 170 + turn, 200, 10).altDeg).toBeCloseTo(
        altitudeKernel(30, 170, 200, 10).altDeg,
        10,
      );
  });
  test('a declination over 90° is refused', () => {
    expect(() => computedAltitude(Position.degrees(0, 0), deg(10), deg(117))).toThrow(
      OutOfRangeError,
    );
  });
});

describe('tabular assumed position', () => {
  test.each([
    [36.5467, -18.1667, 317.87],
    [-15.49, 5.9, 0.2],
    [0.4, 179.9, 359.9],
    [-0.4, -179.9, 12.5],
  ])('whole degrees within 30′ of %f, %f', (lat, lon, gha) => {
    const a = assumedPosition(Position.degrees(lat, lon), deg(gha));
    expect(a.lha.degrees % 1).toBeCloseTo(0, 9);
    expect(Math.abs(a.position.latDeg - lat)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(deg(a.position.lonDeg - lon).signed().degrees)).toBeLessThanOrEqual(0.5);
    expect(
      deg(gha + a.position.lonDeg)
        .normalized()
        .minus(a.lha)
        .signed().degrees,
    ).toBeCloseTo(0, 9);
  });
});

describe('rhumb lines', () => {
  test('there and back', () => {
    const rng = seededRandom(9);
    for (let i = 0; i < 300; i++) {
      const a = Position.degrees(150 * rng.uniform() - 75, 360 * rng.uniform() - 180);
      const b = rhumbDestination(
        a,
        deg(360 * rng.uniform()),
        Length.nauticalMiles(400 * rng.uniform()),
      );
      const { course, distance } = rhumbBetween(a, b);
      const c = rhumbDestination(a, course, distance);
      expect(Math.abs(c.latDeg - b.latDeg) * 60).toBeLessThan(1e-7);
      expect(Math.abs(deg(c.lonDeg - b.lonDeg).signed().arcminutes)).toBeLessThan(1e-6);
    }
  });
  test('due east keeps the latitude, and nearly due east is not spoilt by rounding', () => {
    const a = Position.degrees(55, 10);
    const along = rhumbDestination(a, deg(90), Length.nauticalMiles(300));
    expect(along.latDeg).toBeCloseTo(55, 10);
    const nearly = [90, 90 - 1e-6, 90 + 1e-6, 90 - 1e-4].map(
      (c) => rhumbDestination(a, deg(c), Length.nauticalMiles(300)).lonDeg,
    );
    for (const lon of nearly) expect(Math.abs(lon - along.lonDeg) * 60).toBeLessThan(0.001);
  });
  test('over the date line', () => {
    const { course, distance } = rhumbBetween(
      Position.degrees(0, 179.5),
      Position.degrees(0, -179.5),
    );
    expect(course.degrees).toBeCloseTo(90, 9);
    expect(distance.metres).toBeCloseTo((6378137 * Math.PI) / 180, 6);
  });
  test('into a pole it says so', () => {
    expect(() =>
      rhumbDestination(Position.degrees(89, 0), deg(0), Length.nauticalMiles(61)),
    ).toThrow(/pole/);
    expect(() => rhumbBetween(Position.degrees(90, 0), Position.degrees(0, 0))).toThrow(/pole/);
  });
});

describe('circle of equal altitude', () => {
  test('every point of it has the altitude', () => {
    const circle = CircleOfEqualAltitude.of(deg(200), deg(-17), deg(38));
    for (const p of circle.points(36))
      expect(computedAltitude(p, deg(200), deg(-17)).altitude.degrees).toBeCloseTo(38, 9);
  });
  test('GeoJSON is cut at the date line and goes round a pole', () => {
    const line = CircleOfEqualAltitude.of(deg(180), deg(10), deg(60)).toGeoJson();
    expect(line.geometry.type).toBe('MultiLineString');
    const cap = CircleOfEqualAltitude.of(deg(20), deg(80), deg(70)).capToGeoJson();
    const text = JSON.stringify(cap.geometry);
    expect(text).toContain(',90]');
    expect(
      Math.max(...(JSON.parse(text).coordinates.flat(9) as number[]).map(Math.abs)),
    ).toBeLessThanOrEqual(180);
  });
});

const forenoon = sight({
  body: 'Sun',
  limb: 'lower',
  reading: '41°18.6′',
  time: '2027-05-11 09:42:17 UTC',
  eyeHeight: '2.6 m',
  indexError: '1.4′ off the arc',
  observer: 'A',
  dr: position('19°31′ S', '001°12′ W'),
  course: '312°',
  speed: '5.2 kn',
});

describe('position line of a sight', () => {
  test('reduce goes from the reading to the intercept in one working', () => {
    const w = reduce(forenoon);
    expect(w.steps[0]?.kind).toBe('entry');
    expect(w.steps.map((s) => s.rule)).toContain('refraction');
    expect(w.value).toBe(w.steps.at(-1)?.result);
    const line = positionLine(forenoon, position('19°31′ S', '001°12′ W'));
    expect(w.value.intercept.metres).toBe(line.intercept.metres);
    expect(line.intercept.nauticalMiles).toBeCloseTo(
      line.observed.minus(line.computed).arcminutes,
      9,
    );
    expect(String(line)).toMatch(/^Sun 09:42:17: \d+\.\d nm (toward|away) \d{3}°$/);
  });
  test('the foot of the intercept lies on the circle, near enough for a short intercept', () => {
    const near = computedAltitude(position('19°31′ S', '001°12′ W'), deg(10), deg(-5));
    const line = positionLine(
      {
        body: 'Sirius',
        instant: forenoon.instant,
        observed: near.altitude.plus(Angle.arcminutes(5)),
        gha: deg(10),
        declination: deg(-5),
        causes: [],
      },
      position('19°31′ S', '001°12′ W'),
    );
    const there = computedAltitude(line.foot, deg(10), deg(-5)).altitude;
    // 1′ is 1852 m in the trade; the ellipsoid's own minutes differ by up to 0.6 %, of 5′ that is 0.03′.
    expect(Math.abs(there.minus(line.observed).arcminutes)).toBeLessThan(0.04);
  });
  test('the watch error turns into altitude by dh/dt and is shared', () => {
    const timed = sight({
      ...forenoon.fields,
      watch: { error: 'correct', sigma: '4 s', key: 'deck' },
    });
    const line = positionLine(timed, position('19°31′ S', '001°12′ W'));
    const cause = line.uncertainty.causes.find((c) => c.cause === 'watch');
    const expected =
      4 *
      0.25 *
      Math.cos(line.position.latitude.radians) *
      Math.abs(Math.sin(line.azimuth.radians));
    expect(cause?.sigmaArcmin).toBeCloseTo(expected, 6);
    expect(cause?.sharedKey).toBe('watch:deck');
  });
  test('an intercept longer than a DR is out by is flagged, toward and away', () => {
    const { foot } = positionLine(forenoon);
    const lines = [0, -1, 1].map((deg) =>
      reduce(forenoon, Position.degrees(foot.latDeg + deg, foot.lonDeg)),
    );
    const said = lines.map(({ value, flags }) => [
      Math.abs(value.intercept.nauticalMiles) > 30,
      flags.some((flag) => /An intercept of \d+\.\d nm (toward|away) is longer/.test(flag)),
    ]);
    expect(said).toEqual([
      [false, false],
      [true, true],
      [true, true],
    ]);
  });
  test('without any position the error says what to give', () => {
    const fields = { ...forenoon.fields, dr: undefined as never };
    delete (fields as { dr?: unknown }).dr;
    expect(() => reduce(sight(fields))).toThrow(/has no DR: give a position/);
  });
});
