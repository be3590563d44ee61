import {
  altitudeKernel,
  apparentPlace,
  computedAltitude,
  Instant,
  position,
  Position,
  rhumbBetween,
  rhumbDestination,
  Angle,
  Length,
  seededRandom,
  type BodyName,
} from 'cocked-hat';
import sailings from './fixtures/sailings.json';
import stars from '../../data/nav-stars.json';
import { pythonJson } from '../support/python.js';
import type { Check, Comparison } from './compare.js';

const entry = <T>(id: string): T => sailings.entries.find((e) => e.id === id) as unknown as T;

/** `40:38:23N 073:46:44W` as the manual prints places. */
export function colons(text: string): Position {
  const [lat = '', lon = ''] = text.split(' ').map(degreesOf);
  return Position.degrees(Number(lat), Number(lon));
}
function degreesOf(text: string): string {
  const m = /^(\d+):(\d+):([\d.]+)([NSEW]?)$/.exec(text);
  if (!m) throw new Error(`not degrees:minutes:seconds: ${text}`);
  const size = Number(m[1]) + Number(m[2]) / 60 + Number(m[3]) / 3600;
  return String(/[SW]/.test(m[4] ?? '') ? -size : size);
}

const RHUMB_SOURCE = 'GeographicLib RhumbSolve manual, examples';
const PRINTED = 'half of the last printed digit (0.1″ or 1 m)';

/** Rhumb lines against printed values. */
function rhumbChecks(): Check[] {
  const whole = entry<{
    inputs: { p1: string; p2: string };
    expected: { course: string; distance_m: number };
  }>('rhumb-jfk-sin');
  const way = entry<{
    inputs: { start: string; course: string; step_m: number };
    expected: [string, string][];
  }>('rhumb-waypoints');
  const found = () => rhumbBetween(colons(whole.inputs.p1), colons(whole.inputs.p2));
  const start = colons(way.inputs.start);
  // The printed course is rounded to 0.1″; at 20 000 km that is 5 m, 0.16″: the unrounded course is used.
  const course = rhumbBetween(colons(whole.inputs.p1), colons(whole.inputs.p2)).course;
  function* waypoints(which: 'latDeg' | 'lonDeg'): Generator<Comparison> {
    for (const [k, [lat, lon]] of way.expected.entries()) {
      const p = rhumbDestination(start, course, Length.metres(way.inputs.step_m * (k + 1)));
      const printed = colons(`${lat} ${lon}`);
      yield { label: `${2000 * (k + 1)} km`, ours: p[which] * 3600, theirs: printed[which] * 3600 };
    }
  }
  const base = { group: 'Rhumb lines on WGS 84', source: RHUMB_SOURCE };
  return [
    {
      ...base,
      subject: 'New York to Singapore',
      quantity: 'course',
      unit: '″',
      tolerance: 0.05,
      reason: PRINTED,
      expected: 1,
      *cases() {
        yield {
          label: 'course',
          ours: found().course.arcseconds,
          theirs: Number(degreesOf(`${whole.expected.course}`)) * 3600,
        };
      },
    },
    {
      ...base,
      subject: 'New York to Singapore',
      quantity: 'distance',
      unit: 'm',
      tolerance: 0.5,
      reason: PRINTED,
      expected: 1,
      *cases() {
        yield {
          label: 'distance',
          ours: found().distance.metres,
          theirs: whole.expected.distance_m,
        };
      },
    },
    ...(['latDeg', 'lonDeg'] as const).map((which): Check => ({
      ...base,
      subject: 'Every 2000 km on the way',
      quantity: which === 'latDeg' ? 'latitude' : 'longitude',
      unit: '″',
      tolerance: 0.1,
      reason: 'the last printed digit, 0.1″; the manual starts from the course rounded to 0.1″',
      expected: way.expected.length,
      cases: () => waypoints(which),
    })),
    {
      group: 'Rhumb lines on WGS 84',
      subject: 'Bowditch Mercator sailing, example 1',
      quantity: 'course',
      unit: '°',
      tolerance: 0.1,
      reason: 'printed to 0.1°; its distances take 1′ of latitude as a mile and are not compared',
      source: 'Bowditch, American Practical Navigator (2024), art. 910',
      expected: 1,
      *cases() {
        const e = entry<{ expected: { course: number } }>('bowditch-mercator-1');
        const { course: c } = rhumbBetween(
          position('32°14.7′ N', '066°28.9′ W'),
          position('36°58.7′ N', '075°42.2′ W'),
        );
        yield { label: 'course', ours: c.degrees, theirs: e.expected.course };
      },
    },
    meridianCheck(),
    shortCheck(),
  ];
}

/** Along a meridian a rhumb line is a geodesic, from pole to pole. */
function meridianCheck(): Check {
  return {
    group: 'Rhumb lines on WGS 84',
    subject: 'Along the meridian',
    quantity: 'distance',
    unit: 'mm',
    tolerance: 0.001,
    reason: 'GeographicLib is good to 15 nm; the series here leaves out less',
    source: 'PyPI geographiclib 2.1, geodesic',
    expected: 60,
    *cases() {
      const rng = seededRandom(5);
      const pairs = Array.from({ length: 60 }, () => [
        rng.uniform() * 178 - 89,
        rng.uniform() * 178 - 89,
      ]);
      const theirs = pythonJson<number[]>(
        `from geographiclib.geodesic import Geodesic
answer = [Geodesic.WGS84.Inverse(a, 0, b, 0)['s12'] for a, b in given]`,
        pairs,
      );
      for (const [i, [a = 0, b = 0]] of pairs.entries())
        yield {
          label: `${a} to ${b}`,
          ours: rhumbBetween(Position.degrees(a, 0), Position.degrees(b, 0)).distance.metres * 1000,
          theirs: (theirs[i] ?? NaN) * 1000,
        };
    },
  };
}

/** A rhumb line sailed as many short geodesics, each set off so that its middle heads the course. */
function shortCheck(): Check {
  const COUNT = 20;
  return {
    group: 'Rhumb lines on WGS 84',
    subject: 'Runs of 300 nm, any course, below 70°',
    quantity: 'distance between the ends',
    unit: 'm',
    tolerance: 0.05,
    reason: '600 pieces instead of 300 move the end by 0.03 m',
    source: 'PyPI geographiclib 2.1, 600 geodesics end to end',
    expected: COUNT,
    *cases() {
      const rng = seededRandom(6);
      const runs = Array.from({ length: COUNT }, () => [
        rng.uniform() * 130 - 65,
        rng.uniform() * 360 - 180,
        rng.uniform() * 360,
      ]);
      const ends = runs.map(([lat = 0, lon = 0, course = 0]) => {
        const p = rhumbDestination(
          Position.degrees(lat, lon),
          Angle.degrees(course),
          Length.nauticalMiles(300),
        );
        return [lat, lon, course, p.latDeg, p.lonDeg];
      });
      const miss = pythonJson<number[]>(
        `from geographiclib.geodesic import Geodesic
g = Geodesic.WGS84
N = 600
answer = []
for lat, lon, c, lat2, lon2 in given:
    for _ in range(N):
        turn = (g.Direct(lat, lon, c, 300 * 1852 / N)['azi2'] - c + 180) % 360 - 180
        d = g.Direct(lat, lon, c - turn / 2, 300 * 1852 / N)
        lat, lon = d['lat2'], d['lon2']
    answer.append(g.Inverse(lat, lon, lat2, lon2)['s12'])`,
        ends,
      );
      for (const [i, m] of miss.entries()) yield { label: String(runs[i]), ours: m, theirs: 0 };
    },
  };
}

/** The bare triangle against SOFA at random places. */
function triangleChecks(): Check[] {
  const COUNT = 2000;
  const cases = (() => {
    const rng = seededRandom(7);
    return Array.from({ length: COUNT }, () => ({
      lat: rng.uniform() * 180 - 90,
      lon: rng.uniform() * 360 - 180,
      gha: rng.uniform() * 360,
      dec: rng.uniform() * 180 - 90,
    }));
  })();
  let sofa: [number[], number[]] | undefined;
  const truth = () =>
    (sofa ??= pythonJson<[number[], number[]]>(
      `import erfa, numpy as np
r = np.radians
lat, lon, gha, dec = (np.array([g[k] for g in given]) for k in ('lat', 'lon', 'gha', 'dec'))
az, el = erfa.hd2ae(r(gha + lon), r(dec), r(lat))
answer = [list(np.degrees(el)), list(np.degrees(az))]`,
      cases,
    ));
  const make = (quantity: 'altitude' | 'azimuth', tolerance: number): Check => ({
    group: 'Computed altitude and azimuth',
    subject: 'Triangle at random places',
    quantity,
    unit: '′',
    tolerance,
    reason:
      'both compute in double precision; azimuths near the zenith lose the digits that 1/cos h takes',
    source: 'PyPI pyerfa 2.0.1.5, eraHd2ae',
    expected: COUNT,
    modulo: 21600,
    *cases() {
      const [el, az] = truth();
      for (const [i, c] of cases.entries()) {
        const { altDeg, azDeg } = altitudeKernel(c.lat, c.lon, c.gha, c.dec);
        yield quantity === 'altitude'
          ? { label: JSON.stringify(c), ours: altDeg * 60, theirs: (el[i] ?? NaN) * 60 }
          : { label: JSON.stringify(c), ours: azDeg * 60, theirs: (az[i] ?? NaN) * 60 };
      }
    },
  });
  return [make('altitude', 1e-9), make('azimuth', 1e-7)];
}

const BODIES = [
  'Sun',
  'Moon',
  'Venus',
  'Mars',
  'Jupiter',
  'Saturn',
  'Aldebaran',
  'Canopus',
  'Vega',
  'Polaris',
] as const;

interface Placed {
  readonly body: BodyName;
  readonly lat: number;
  readonly lon: number;
  readonly tt: number;
  readonly deltaT: number;
}

/** From body, time and place to altitude and azimuth, every step of the way another program's. */
function wholeChecks(): Check[] {
  const COUNT = 400;
  const rng = seededRandom(8);
  const cases: Placed[] = Array.from({ length: COUNT }, (_, i) => ({
    body: BODIES[i % BODIES.length] as BodyName,
    lat: rng.uniform() * 178 - 89,
    lon: rng.uniform() * 360 - 180,
    tt: 2447892.5 + Math.round(rng.uniform() * 59 * 365.25 * 86400) / 86400,
    deltaT: 55 + 20 * rng.uniform(),
  }));
  let answers: { alt: number[]; az: number[] } | undefined;
  const truth = (): { alt: number[]; az: number[] } =>
    (answers ??= pythonJson<{ alt: number[]; az: number[] }>(SKYFIELD, {
      cases,
      stars: stars.stars.filter((s) => (BODIES as readonly string[]).includes(s.name)),
      epoch: stars.epochJdTT,
    }));
  const make = (quantity: 'altitude' | 'azimuth'): Check => ({
    group: 'Computed altitude and azimuth',
    subject: 'Bodies at random places and times, 1990–2049',
    quantity: quantity === 'altitude' ? 'altitude' : 'azimuth × cos altitude',
    unit: '′',
    tolerance: 0.005,
    reason: 'the accuracy asked of a reduction: a twentieth of what a sextant reads',
    source:
      'PyPI skyfield 1.55 with JPL DE421, geocentric apparent direction turned to the horizon',
    expected: COUNT,
    *cases() {
      const t = truth();
      for (const [i, c] of cases.entries()) {
        const instant = Instant.fromJulianDates({ tt: c.tt, ut1: c.tt - c.deltaT / 86400 });
        const place = apparentPlace(c.body, instant);
        const at = Position.degrees(c.lat, c.lon);
        const { altitude, azimuth } = computedAltitude(at, place.gha, place.declination);
        const label = `${c.body} TT ${c.tt} at ${at.toString()}`;
        const [alt, az] = [t.alt[i] ?? NaN, t.az[i] ?? NaN];
        if (quantity === 'altitude') yield { label, ours: altitude.arcminutes, theirs: alt * 60 };
        else {
          const difference = azimuth.minus(Angle.degrees(az)).signed().arcminutes;
          yield { label, ours: difference * Math.cos(altitude.radians), theirs: 0 };
        }
      }
    },
  });
  return [make('altitude'), make('azimuth')];
}

const SKYFIELD = `
import os, warnings
warnings.filterwarnings('ignore')
import numpy as np
from skyfield_data import get_skyfield_data_path
from skyfield.api import Loader, wgs84, Star
load = Loader(get_skyfield_data_path(), verbose=False)
eph = load('de421.bsp')
ts = load.timescale(builtin=True)
names = {'Sun': 'sun', 'Moon': 'moon', 'Venus': 'venus', 'Mars': 'mars', 'Jupiter': 'jupiter barycenter', 'Saturn': 'saturn barycenter'}
stars = {s['name']: Star(ra_hours=s['raDeg'] / 15, dec_degrees=s['decDeg'], ra_mas_per_year=s['pmRaCosDecMasPerYr'],
         dec_mas_per_year=s['pmDecMasPerYr'], parallax_mas=s['parallaxMas'], radial_km_per_s=s['radialVelocityKmS'], epoch=given['epoch'])
         for s in given['stars']}
alt, az = [], []
for c in given['cases']:
    t = ts.tt_jd(c['tt'])
    t.delta_t = c['deltaT']
    target = eph[names[c['body']]] if c['body'] in names else stars[c['body']]
    xyz = eph['earth'].at(t).observe(target).apparent().xyz.au
    x, y, z = wgs84.latlon(c['lat'], c['lon']).rotation_at(t) @ (xyz / np.linalg.norm(xyz))
    alt.append(float(np.degrees(np.arctan2(z, np.hypot(x, y)))))
    az.append(float(np.degrees(np.arctan2(y, x)) % 360))
answer = {'alt': alt, 'az': az}
`;

export function reductionChecks(): Check[] {
  return [...rhumbChecks(), ...triangleChecks(), ...wholeChecks()];
}
