import {
  altitudeStagesKernel,
  apparentPlace,
  augmentationKernel,
  horizontalKernel,
  Instant,
  type AltitudeInput,
} from 'cocked-hat';
import { pythonJson } from '../support/python.js';
import horizons from './fixtures/horizons.json';
import meeus from './fixtures/meeus.json';
import novas from './fixtures/novas.json';
import type { Check } from './compare.js';

const RAD = Math.PI / 180;

/** A Moon seen through no air, at its topocentric altitude: only parallax and figure remain. */
const airless = (over: Partial<AltitudeInput>): AltitudeInput => ({
  readingDeg: NaN,
  indexErrorArcmin: 0,
  instrumentArcmin: 0,
  horizon: 'bubble',
  eyeHeightM: 0,
  distanceM: NaN,
  temperatureC: 10,
  pressureHpa: 0,
  refractionModel: 'formula',
  limb: 0,
  sdArcmin: 0,
  hpArcmin: NaN,
  moon: true,
  latDeg: NaN,
  azimuthDeg: NaN,
  phaseArcmin: 0,
  ...over,
});

interface Seen {
  readonly label: string;
  readonly latDeg: number;
  /** Geocentric apparent place, turned to altitude and azimuth of the place by its geodetic vertical. */
  readonly geocentricAltDeg: number;
  readonly azimuthDeg: number;
  readonly distanceKm: number;
  readonly tt: number;
  readonly ut1: number;
  readonly topocentricAltDeg: number;
  readonly topocentricKm: number;
}

const SKYFIELD = `
from skyfield.api import Loader, wgs84
from skyfield_data import get_skyfield_data_path
import numpy as np
load = Loader(get_skyfield_data_path(), expire=False)
ts = load.timescale(builtin=True)
eph = load('de421.bsp')
answer = []
for lat in given['latitudes']:
    for day in given['days']:
        t = ts.tt_jd(day)
        place = wgs84.latlon(lat, given['longitude'])
        geo = eph['earth'].at(t).observe(eph['moon']).apparent()
        ra, dec, dist = geo.radec('date')
        lha = np.radians((t.gast * 15 + given['longitude']) - ra.hours * 15)
        d, p = dec.radians, np.radians(lat)
        up = np.sin(d) * np.sin(p) + np.cos(d) * np.cos(p) * np.cos(lha)
        north = np.sin(d) * np.cos(p) - np.cos(d) * np.sin(p) * np.cos(lha)
        east = -np.cos(d) * np.sin(lha)
        alt, az, topo = (eph['earth'] + place).at(t).observe(eph['moon']).apparent().altaz()
        if alt.degrees < 3: continue
        answer.append(dict(label=f'lat {lat}, TT {day}', latDeg=lat,
            geocentricAltDeg=float(np.degrees(np.arctan2(up, np.hypot(north, east)))),
            azimuthDeg=float(np.degrees(np.arctan2(east, north)) % 360), distanceKm=float(dist.km),
            tt=float(t.tt), ut1=float(t.ut1),
            topocentricAltDeg=float(alt.degrees), topocentricKm=float(topo.km)))
`;

let seen: readonly Seen[] | undefined;
/** The Moon over 3° at places from the equator to 80°, both hemispheres, through a month and through 40 years. */
function skyfieldMoons(): readonly Seen[] {
  const month = Array.from({ length: 40 }, (_, i) => 2461500.5 + i * 0.717);
  const decades = Array.from({ length: 40 }, (_, i) => 2448000.5 + i * 357.31);
  return (seen ??= pythonJson<Seen[]>(SKYFIELD, {
    latitudes: [0, 10, -20, 35, -50, 65, 80, -80],
    longitude: -5.7,
    days: [...month, ...decades],
  }));
}
/** How many of the 640 are over 3°. */
const MOONS_UP = 289;

const hpArcmin = (km: number) => (Math.asin(6378.137 / km) / RAD) * 60;
const sdArcmin = (km: number) => (Math.asin(1737.4 / km) / RAD) * 60;

/** Parallax of the Moon with the Earth's figure, and its augmentation. */
export function moonParallaxChecks(): Check[] {
  return [
    {
      group: 'Corrections',
      subject: 'Moon',
      quantity: 'parallax in altitude with the figure of the Earth, latitudes 0°–80°',
      unit: '′',
      tolerance: 0.006,
      reason: 'what reduction to the centre leaves out: diurnal aberration, up to 0.32″ (0.0053′)',
      source: 'skyfield 1.55, DE421, wgs84.latlon',
      expected: MOONS_UP,
      *cases() {
        for (const s of skyfieldMoons()) {
          const stages = altitudeStagesKernel(
            airless({
              readingDeg: s.topocentricAltDeg,
              hpArcmin: apparentPlace('Moon', Instant.fromJulianDates(s)).horizontalParallax
                .arcminutes,
              latDeg: s.latDeg,
              azimuthDeg: s.azimuthDeg,
            }),
          );
          yield {
            label: s.label,
            ours: stages.observedDeg * 60,
            theirs: s.geocentricAltDeg * 60,
          };
        }
      },
    },
    {
      group: 'Corrections',
      subject: 'Moon',
      quantity: 'semi-diameter with augmentation, latitudes 0°–80°',
      unit: '′',
      tolerance: 0.002,
      reason: 'ours is exact for a round Earth; flattening changes the distance by 1 part in 18000',
      source: 'skyfield 1.55, DE421, distance from the place',
      expected: MOONS_UP,
      *cases() {
        for (const s of skyfieldMoons()) {
          const sd = sdArcmin(s.distanceKm);
          const ours = sd + augmentationKernel(s.topocentricAltDeg, sd, hpArcmin(s.distanceKm));
          yield { label: s.label, ours, theirs: sdArcmin(s.topocentricKm) };
        }
      },
    },
    meeusAugmentation(),
    novasMoon(),
    horizonsMoon(),
  ];
}

function meeusAugmentation(): Check {
  const entry = meeus.entries.find((e) => e.id === 'meeus-40ecl');
  return {
    group: 'Corrections',
    subject: 'Moon',
    quantity: 'semi-diameter with augmentation',
    unit: '″',
    tolerance: 0.1,
    reason: 'printed to 0.1″ (±0.05″); the example has the Earth’s figure in it',
    source: entry?.source ?? 'missing',
    expected: 1,
    *cases() {
      // Inputs of the example: λ, β, ε, local sidereal time, latitude, parallax, semi-diameter.
      const [lambda, beta, eps] = [
        181 + 46 / 60 + 22.5 / 3600,
        2 + 17 / 60 + 26.2 / 3600,
        23 + 28 / 60 + 0.8 / 3600,
      ];
      const [theta, lat] = [209 + 46 / 60 + 7.9 / 3600, 50 + 5 / 60 + 7.8 / 3600];
      const [hp, sd] = [59 + 27.7 / 60, 16 + 15.5 / 60];
      const [l, b, e] = [lambda * RAD, beta * RAD, eps * RAD];
      const dec = Math.asin(Math.sin(b) * Math.cos(e) + Math.cos(b) * Math.sin(e) * Math.sin(l));
      const ra = Math.atan2(Math.sin(l) * Math.cos(e) - Math.tan(b) * Math.sin(e), Math.cos(l));
      const h = horizontalKernel(lat, 0, theta - ra / RAD, dec / RAD).altDeg;
      // From the centre to the surface: the altitude is less by the parallax.
      let surface = h;
      for (let i = 0; i < 20; i++)
        surface = h - Math.asin(Math.sin((hp / 60) * RAD) * Math.cos(surface * RAD)) / RAD;
      yield {
        label: 'exercise p. 282',
        ours: (sd + augmentationKernel(surface, sd, hp)) * 60,
        theirs: 16 * 60 + 25.5,
      };
    },
  };
}

function novasMoon(): Check {
  const { inputs, expected } = novas.example;
  const au = 149597870.7;
  return {
    group: 'Corrections',
    subject: 'Moon',
    quantity: 'parallax in altitude with the figure of the Earth',
    unit: '′',
    tolerance: 0.011,
    reason:
      'what reduction to the centre leaves out: diurnal aberration (0.0053′), annual aberration 1° apart (0.0057′)',
    source: 'USNO NOVAS C 3.1, check-out values of the User’s Guide',
    expected: 1,
    *cases() {
      const gha = (raHours: number) => (expected.gast_h - raHours) * 15;
      const { moon_apparent: geo, moon_topocentric: topo } = expected;
      const at = (raHours: number, dec: number) =>
        horizontalKernel(inputs.lat_deg, inputs.lon_deg, gha(raHours), dec);
      const fromCentre = at(geo.ra_h, geo.dec_deg);
      const stages = altitudeStagesKernel(
        airless({
          readingDeg: at(topo.ra_h, topo.dec_deg).altDeg,
          hpArcmin: hpArcmin(geo.dist_au * au),
          latDeg: inputs.lat_deg,
          azimuthDeg: fromCentre.azimuthDeg,
        }),
      );
      yield {
        label: '2008-04-24, 42° N 70° W',
        ours: stages.observedDeg * 60,
        theirs: fromCentre.altDeg * 60,
      };
    },
  };
}

type HorizonsRow = readonly [utc: string, ...numbers: number[]];
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

function horizonsMoon(): Check {
  const set = horizons.sets.find((s) => s.body === 'Moon' && !s.refracted);
  const rows = ((set?.rows ?? []) as unknown as HorizonsRow[]).filter(
    (r) => Number(r[0].slice(0, 4)) < 2019 && (r[6] ?? NaN) > 3,
  );
  const { lat = NaN, lon = NaN } = set?.site_deg ?? {};
  return {
    group: 'Corrections',
    subject: 'Moon',
    quantity: 'geocentric altitude from the altitude JPL Horizons gives at a place',
    unit: '′',
    tolerance: 0.03,
    reason: 'printed to 0.006′ in altitude; diurnal aberration 0.0053′; our place 0.01′',
    source: 'JPL Horizons (DE431), airless topocentric Moon, 1965–2019',
    expected: 12,
    *cases() {
      for (const row of rows) {
        const [date = '', time = ''] = row[0].split(' ');
        const [year, month = '', day] = date.split('-');
        const mm = String(MONTHS.indexOf(month) + 1).padStart(2, '0');
        const place = apparentPlace('Moon', Instant.utc(`${year}-${mm}-${day} ${time}:00 UTC`));
        const fromCentre = horizontalKernel(lat, lon, place.gha.degrees, place.declination.degrees);
        const stages = altitudeStagesKernel(
          airless({
            readingDeg: row[6] ?? NaN,
            hpArcmin: place.horizontalParallax.arcminutes,
            latDeg: lat,
            azimuthDeg: fromCentre.azimuthDeg,
          }),
        );
        yield {
          label: row[0],
          ours: stages.observedDeg * 60,
          theirs: fromCentre.altDeg * 60,
        };
      }
    },
  };
}
