import {
  amplitude,
  altitudeKernel,
  Angle,
  clearedDistance,
  compassByAzimuth,
  hourAngleFrom,
  Instant,
  latitudeFromPolarisTable,
  latitudeByPolaris,
  lunarDistance,
  Position,
  polarisTable,
  ghaAries,
  apparentPlace,
  computedAltitude,
  seededRandom,
  Duration,
} from 'cocked-hat';
import { describe, expect, test } from 'vitest';
import { pythonJson } from '../support/python.js';
import printed from './fixtures/methods.json';

const entry = (id: string) => {
  const found = printed.entries.find((e) => e.id === id);
  if (!found) throw new Error(`no printed example ${id}`);
  return found as unknown as {
    source: string;
    expected: Record<string, never>;
    inputs: Record<string, never>;
  };
};
const dms = (d: number, m = 0, s = 0) => d + m / 60 + s / 3600;
const hms = (h: number, m: number, s: number) => 15 * dms(h, m, s);

describe('worked examples in print', () => {
  test('time sight of 1870: Navigation epitome of about 1871, p. 36, Example III', () => {
    const e = entry('time-sight-1870-mar').expected;
    const t = hourAngleFrom(dms(10, 57, 10), 55, dms(89, 46, 54)) as number;
    // Printed 4h43m57s from five-figure logarithms; they are good to a second.
    expect(Math.abs(t - hms(4, 43, 57)) * 240).toBeLessThan(1);
    expect(e['hour_angle']).toBe('4h43m57s');
    // AM sight: apparent time 24h − t on the astronomical day, less the equation of time, against the chronometer.
    const meanTime = 24 - t / 15 + 7 / 60 + 20 / 3600;
    const longitude = (meanTime - dms(20, 46, 24)) * 15;
    expect(Math.abs(longitude + dms(20, 45.25)) * 60).toBeLessThan(0.25);
  });
  test('time sight of a star, E. G. Draper, Lectures in Navigation (1918)', () => {
    // Latitude 38°57′ is that of the companion exercise; its split from the polar distance is inferred, not printed.
    const t = hourAngleFrom(dms(19, 56, 52), dms(38, 57), dms(106, 36, 24)) as number;
    expect(Math.abs(t - hms(3, 2, 40)) * 240).toBeLessThan(1);
  });
  test('amplitude, NAVEDTRA 14220 ch. 9 (Bowditch Table 27): table cell and gyro error', () => {
    const e = entry('navedtra-amplitude').expected as Record<string, number>;
    expect(
      Math.abs((amplitude(51, 19) as number) - (e['table_cell_L51_d19'] as number)),
    ).toBeLessThan(0.05);
    const exact = 270 + (amplitude(dms(51, 4.6), dms(19, 0.4)) as number);
    expect(Math.abs(exact - (e['azimuth'] as number))).toBeLessThan(0.1);
    expect(Math.abs(exact - 300 - 1.2)).toBeLessThan(0.1);
  });
  test('azimuth of the Sun, Bowditch (2002), art. 1701 (from memory)', () => {
    const { azDeg } = altitudeKernel(dms(33, 24), 0, dms(316, 41.2), dms(20, 13.8));
    expect(Math.abs(azDeg - 97.7)).toBeLessThan(0.1);
  });
  test('azimuth of the Sun, E. G. Draper, Lectures in Navigation (1919): N 101°30′ W', () => {
    // The declination is not in the excerpt; for the date it lies between 2.0° and 2.1° S.
    const { azDeg } = altitudeKernel(dms(40, 10), 0, hms(4, 59, 22), -2.05);
    expect(Math.abs(360 - azDeg - 101.5)).toBeLessThan(0.2);
  });
  test('lunar distance cleared, R. Patterson’s method (1803) as printed with the Lewis and Clark lunar of 25 May', () => {
    const [d, m, s] = [dms(102, 54, 58.5), dms(32, 54, 4), dms(31, 39)];
    const hp = dms(0, 58, 47.8);
    const bennett = (h: number) => 1 / 60 / Math.tan(((h + 7.31 / (h + 4.4)) * Math.PI) / 180);
    const down = (h: number, p: number) =>
      h - bennett(h) + p * Math.cos(((h - bennett(h)) * Math.PI) / 180);
    const cleared = clearedDistance(d, m, s, down(m, hp), down(s, 8.8 / 3600));
    // Patterson's is an approximation and his refraction another: 20″ by the printed source's own comparison.
    expect(Math.abs(cleared - dms(102, 18, 10)) * 3600).toBeLessThan(20);
  });
});

describe('a lunar distance gives back the time', () => {
  /** What a sextant would measure, by skyfield: topocentric near limbs, each lifted by refraction (almanac formula). */
  const COUNT = 12;
  const ROOM_ARCMIN = 0.06;
  const rng = seededRandom(31);
  const cases = Array.from({ length: 150 }, () => ({
    lat: 80 * rng.uniform() - 40,
    lon: 360 * rng.uniform() - 180,
    tt: 2461000.5 + Math.floor(86400 * 700 * rng.uniform()) / 86400,
    deltaT: 69.3,
    body: rng.uniform() < 0.5 ? 'Sun' : 'Jupiter',
  }));
  const seen = pythonJson<{ alt: number[]; distance: number }[]>(
    `import warnings
warnings.filterwarnings('ignore')
import numpy as np
from skyfield_data import get_skyfield_data_path
from skyfield.api import Loader, wgs84
load = Loader(get_skyfield_data_path(), verbose=False)
eph, ts = load('de421.bsp'), load.timescale(builtin=True)
answer = []
def refract(h):
    a = h
    for _ in range(20):
        a = h + 0.28 * 1010 / 283 / 60 / np.tan(np.radians(a + 7.32 / (a + 4.32)))
    return a
def unit(alt, az):
    return np.array([np.cos(alt) * np.cos(az), np.cos(alt) * np.sin(az), np.sin(alt)])
def lifted(v):
    alt, az = np.degrees(np.arcsin(v[2])), np.arctan2(v[1], v[0])
    return unit(np.radians(refract(alt)), az)
def toward(v, w, angle):
    side = w - v * np.dot(v, w)
    return v * np.cos(angle) + side / np.linalg.norm(side) * np.sin(angle)
for c in given:
    t = ts.tt_jd(c['tt']); t.delta_t = c['deltaT']
    here = eph['earth'] + wgs84.latlon(c['lat'], c['lon'])
    alts, vec, sd = [], [], []
    for n, radius in (('moon', 1737.4), ('sun', 696000) if c['body'] == 'Sun' else ('jupiter barycenter', 0)):
        alt, az, dist = here.at(t).observe(eph[n]).apparent().altaz()
        alts.append(float(alt.degrees)); vec.append(unit(alt.radians, az.radians)); sd.append(np.arcsin(radius / dist.km))
    if min(alts) < 15:
        answer.append({'alt': alts, 'distance': 0}); continue
    a, b = lifted(toward(vec[0], vec[1], sd[0])), lifted(toward(vec[1], vec[0], sd[1]))
    answer.append({'alt': alts, 'distance': float(np.degrees(np.arctan2(np.linalg.norm(np.cross(a, b)), np.dot(a, b))))})`,
    cases,
  );
  const usable = cases
    .map((c, i) => ({ c, s: seen[i] as (typeof seen)[number] }))
    .filter(({ s }) => s.distance > 30 && s.distance < 115)
    .slice(0, COUNT);

  test('to 0.06′ of distance, some 7 s, from a watch 20 minutes wrong, altitudes computed', () => {
    expect(usable.length).toBe(COUNT);
    for (const { c, s } of usable) {
      const truth = Instant.fromJulianDates({ tt: c.tt, ut1: c.tt - c.deltaT / 86400 });
      const body = c.body as 'Sun' | 'Jupiter';
      const measured = Angle.degrees(s.distance);
      const w = lunarDistance({
        body,
        distance: measured,
        moonLimb: 'near',
        watch: truth.plus(Duration.minutes(20)),
        position: Position.degrees(c.lat, c.lon),
      });
      // What is left is the shape of the discs under refraction, to second order.
      const room = (ROOM_ARCMIN / Math.abs(w.value.rateArcminPerHour)) * 3600;
      expect(Math.abs(w.value.instant.minus(truth).seconds), JSON.stringify(c)).toBeLessThan(room);
      expect(w.value.watchError.minutes).toBeCloseTo(20, 0);
    }
  });
});

describe('Polaris', () => {
  test('table and triangle agree to 0.2′ through the year, 5° N to 68° N', () => {
    const table = polarisTable(2027);
    const rng = seededRandom(41);
    for (let i = 0; i < 200; i++) {
      const at = Instant.utc('2027-01-01 00:00:00 UTC').plus(
        Duration.seconds(Math.floor(364 * 86400 * rng.uniform())),
      );
      const here = Position.degrees(5 + 63 * rng.uniform(), 360 * rng.uniform() - 180);
      const place = apparentPlace('Polaris', at);
      const { altitude } = computedAltitude(here, place.gha, place.declination);
      const lhaAries = ghaAries(at).plus(here.longitude);
      const month = Number(at.toIso().slice(5, 7));
      const byTable = latitudeFromPolarisTable(table, altitude, lhaAries, here.latitude, month);
      // Rows 10° apart, nearest column of latitude and month: each rounds by up to 0.1′.
      expect(Math.abs(byTable.minus(here.latitude).arcminutes)).toBeLessThan(0.2);
      const w = latitudeByPolaris(
        {
          body: 'Polaris',
          instant: at,
          observed: altitude,
          gha: place.gha,
          declination: place.declination,
          causes: [{ cause: 'observer', sigmaArcmin: 0.7 }],
        },
        { dr: here },
      );
      expect(Math.abs(w.value.minus(here.latitude).arcseconds)).toBeLessThan(0.01);
      const series = w.step('series').result as Angle;
      expect(Math.abs(series.minus(here.latitude).arcminutes)).toBeLessThan(0.1);
    }
  });
  test('every column of the table is positive, as its constants promise', () => {
    const t = polarisTable(2027);
    for (const x of [...t.a0, ...t.a1.flat(), ...t.a2.flat()]) expect(x).toBeGreaterThan(0);
  });
});

test('compass by azimuth: error and deviation have their names', () => {
  const at = Instant.utc('2027-05-11 15:10:00 UTC');
  const here = Position.degrees(-19.5, -1.2);
  const place = apparentPlace('Sun', at);
  const { azimuth } = computedAltitude(here, place.gha, place.declination);
  const w = compassByAzimuth({
    body: 'Sun',
    instant: at,
    position: here,
    compassBearing: azimuth.minus(Angle.degrees(-18.5)).normalized(),
    variation: Angle.degrees(-17),
  });
  expect(w.value.degrees).toBeCloseTo(-18.5, 9);
  expect((w.step('deviation').result as Angle).degrees).toBeCloseTo(-1.5, 9);
  expect(w.step('compass error').figures).toContain('18.5° W');
});
