import {
  apparentPlace,
  Instant,
  newPlaceNumbers,
  placeKernel,
  solarSystemNames,
  type BodyName,
} from 'cocked-hat';
import catalogue from '../../data/nav-stars.json';
import horizons from './fixtures/horizons.json';
import riseSet from './fixtures/rise-set.json';
import { orbitOffset, separation } from '../../src/core/sky/binary-orbit.js';
import { newFrame, setFrame } from '../../src/core/sky/earth-frame.js';
import { engineSolarSystem } from '../../src/core/sky/engine-solar-system.js';
import { starMotion } from '../../src/core/sky/stars.js';
import * as Engine from 'astronomy-engine';
import type { Check, Comparison } from './compare.js';
import { topocentric } from './topocentric.js';

const CIRCLE_ARCMIN = 21600;
const DEG = Math.PI / 180;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** `1965-Jan-10 00:00` as Horizons prints it, UT. */
function horizonsTime(text: string): Instant {
  const [date, clock] = text.split(' ') as [string, string];
  const [year, month, day] = date.split('-') as [string, string, string];
  const number = String(MONTHS.indexOf(month) + 1).padStart(2, '0');
  return Instant.utc(`${year}-${number}-${day} ${clock}:00 UTC`);
}

/** Airless topocentric right ascension and declination of date. After mid-2019 the stored rows rest on a predicted UT1. */
function horizonsChecks(): Check[] {
  return horizons.sets
    .filter((set) => !set.refracted)
    .flatMap((set) => {
      const rows = (set.rows as [string, number, number, number, number, number, number][]).filter(
        ([utc]) => Number(utc.slice(0, 4)) < 2020,
      );
      const { lat, lon, h_km } = set.site_deg;
      return (['right ascension × cos dec', 'declination'] as const).map((quantity): Check => ({
        group: 'Printed places',
        subject: `${set.body} from ${Math.abs(lat)}° N ${Math.abs(lon)}° W`,
        quantity,
        unit: '′',
        tolerance: 0.006,
        reason:
          'printed to 0.0006′; Horizons keeps the equator of 1976/1980 with observed corrections; before 1972 UTC is taken as UT1, 0.1 s off; Jupiter’s centre is 0.0017′ from its system’s',
        source: 'JPL Horizons (DE431), airless, 1965–2019',
        expected: rows.length,
        *cases() {
          for (const [utc, , , ra, dec] of rows) {
            const seen = topocentric(set.body as BodyName, horizonsTime(utc), lat, lon, h_km);
            const off = seen.raDeg - ra;
            const ours = (off - 360 * Math.round(off / 360)) * Math.cos(dec * DEG);
            yield quantity === 'declination'
              ? { label: utc, ours: seen.decDeg * 60, theirs: dec * 60 }
              : { label: utc, ours: ours * 60, theirs: 0 };
          }
        },
      }));
    });
}

/** Minutes from the printed time until the upper limb stands 34′ below the horizon, by the rate of altitude. */
function riseSetChecks(): Check[] {
  const rows = riseSet.rows as [BodyName, number, number, string, 'r' | 's'][];
  return (['Sun', 'Moon'] as const).map((body): Check => {
    const own = rows.filter(([name]) => name === body);
    return {
      group: 'Printed places',
      subject: body,
      quantity: 'time of rise and set',
      unit: 'min',
      tolerance: 1,
      reason:
        'printed to 1 min; rounding of 34′ and 16′ shifts it a little more at 60° of latitude',
      source: 'USNO, Rise and Set tables for 2019',
      expected: own.length,
      *cases() {
        for (const [, lon, lat, utc, kind] of own) {
          const printed = Instant.utc(`${utc.replace('T', ' ').replace('Z', '')}:00`);
          const height = (ms: number) => {
            const t = Instant.fromEpochMs(printed.epochMs + ms);
            const sd = placeKernel(body, t.tt, t.ut1, newPlaceNumbers()).sdArcmin;
            return topocentric(body, t, lat, lon).altDeg + (34 + sd) / 60;
          };
          const ratePerMinute = height(30000) - height(-30000);
          const minutes = -height(0) / ratePerMinute;
          const rightWay = ratePerMinute > 0 === (kind === 'r');
          yield { label: `${utc} ${kind}`, ours: rightWay ? minutes : NaN, theirs: 0 };
        }
      },
    };
  });
}

/** astronomy-engine as second opinion: another theory (VSOP87, MPP02), so this bounds it rather than us. */
function engineChecks(): Check[] {
  const limits: Record<string, number> = {
    Sun: 0.04,
    Moon: 0.06,
    Venus: 0.34,
    Mars: 0.24,
    Jupiter: 0.24,
    Saturn: 0.34,
  };
  const epochs = Array.from({ length: 200 }, (_, i) => 2447892.5 + i * 109.37);
  return solarSystemNames.map((body): Check => ({
    group: 'Second opinion',
    subject: body,
    quantity: 'arc between the two places',
    unit: '′',
    tolerance: limits[body] ?? NaN,
    reason: 'the accuracy of that library against DE421 in 1990–2050, as measured for its label',
    source: 'astronomy-engine 2.1.19',
    expected: epochs.length,
    *cases() {
      for (const tt of epochs) {
        const time = Engine.AstroTime.FromTerrestrialTime(tt - 2451545);
        const v = Engine.RotateVector(
          Engine.Rotation_EQJ_EQD(time),
          Engine.GeoVector(body as Engine.Body, time, true),
        );
        const r = Math.hypot(v.x, v.y, v.z);
        const p = placeKernel(body, tt, tt, newPlaceNumbers());
        const [ra, dec] = [p.raDeg * DEG, p.decDeg * DEG];
        const u = [
          Math.cos(dec) * Math.cos(ra),
          Math.cos(dec) * Math.sin(ra),
          Math.sin(dec),
        ] as const;
        const chord = Math.hypot(u[0] - v.x / r, u[1] - v.y / r, u[2] - v.z / r);
        yield { label: `TT ${tt}`, ours: (chord / DEG) * 60, theirs: 0 };
      }
    },
  }));
}

/** Binaries: printed places of one component, which an orbit with a wrong sign or node would miss by seconds of arc. */
function binaryChecks(): Check[] {
  const alphaCentauri = starMotion('Rigil Kentaurus');
  const sirius = starMotion('Sirius');
  const at = (motion: typeof sirius, tt: number): Float64Array => {
    const years = (tt - motion.epochJd) / 365.25;
    return Float64Array.from(motion.place, (x, i) => x + years * (motion.ratePerYear[i] ?? NaN));
  };
  const arcsecond = (a: Float64Array, raDeg: number, decDeg: number): number => {
    const r = Math.hypot(...a);
    const [ra, dec] = [raDeg * DEG, decDeg * DEG];
    const u = [Math.cos(dec) * Math.cos(ra), Math.cos(dec) * Math.sin(ra), Math.sin(dec)];
    return (Math.hypot(...u.map((x, i) => x - (a[i] ?? NaN) / r)) / DEG) * 3600;
  };
  return [
    {
      group: 'Binaries',
      subject: 'α¹ Centauri',
      quantity: 'mean place, equinox and epoch 2016.5',
      unit: '″',
      tolerance: 0.8,
      reason:
        'printed to 0.1 s (0.36″ here) and 1″, so within 0.62″ by rounding; elements of the orbit from memory',
      source: 'The Astronomical Almanac 2016, bright stars: 14h 40m 44.0s, −60° 54′ 10″',
      expected: 1,
      *cases() {
        const tt = 2451545 + 16.5 * 365.25;
        const v = at(alphaCentauri, tt);
        if (alphaCentauri.binary) orbitOffset(alphaCentauri.binary, tt, v, 'primary');
        const frame = newFrame();
        setFrame(frame, tt, 0, 0);
        const m = frame.matrix;
        const q = Float64Array.from([0, 3, 6], (k) =>
          [0, 1, 2].reduce((sum, i) => sum + (m[k + i] ?? NaN) * (v[i] ?? NaN), 0),
        );
        const printedRa = (14 + 40 / 60 + 44.0 / 3600) * 15;
        yield { label: 'A', ours: arcsecond(q, printedRa, -(60 + 54 / 60 + 10 / 3600)), theirs: 0 };
      },
    },
    {
      group: 'Binaries',
      subject: 'Sirius B',
      quantity: 'ICRS place at 2015.5',
      unit: '″',
      tolerance: 0.3,
      reason:
        'elements of the orbit and the place itself are from memory; a wrong sign of the orbit would miss by 13″',
      source: 'Gaia DR2, source 2947050466531873024 (from memory): 101.28662552°, −16.72093253°',
      expected: 1,
      *cases() {
        const tt = 2451545 + 15.5 * 365.25;
        const v = at(sirius, tt);
        if (!sirius.binary) throw new Error('Sirius has an orbit');
        const { massFractionB } = sirius.binary.orbitOfBAboutA;
        // From the barycentre to A is −massFractionB of the way from A to B; B lies 1 − massFractionB the other way.
        const factor = -(1 - massFractionB) / massFractionB;
        const a = v.slice();
        orbitOffset(sirius.binary, tt, a, 'primary');
        const b = v.map((x, i) => x + factor * ((a[i] ?? NaN) - x));
        yield { label: 'B', ours: arcsecond(b, 101.28662552, -16.72093253), theirs: 0 };
      },
    },
    {
      group: 'Binaries',
      subject: 'α Centauri',
      quantity: 'separation of A and B',
      unit: '″',
      tolerance: 0.15,
      reason: 'values from memory, to 0.1″; the orbit’s elements are those published after them',
      source: 'Washington Double Star Catalog ephemeris (from memory): 2000.0 14.1″, 2016.0 4.0″',
      expected: 2,
      *cases() {
        const binary = catalogue.binaries.find((b) => b.hip === 71683);
        if (!binary) throw new Error('α Centauri has an orbit');
        for (const [year, theirs] of [
          [2000, 14.1],
          [2016, 4.0],
        ] as const) {
          const s = separation(binary, 2451545 + (year - 2000) * 365.25);
          yield { label: String(year), ours: Math.hypot(s.eastArcsec, s.northArcsec), theirs };
        }
      },
    },
  ];
}

/** Outside the ephemeris: the same reduction on astronomy-engine's vectors, which its own reduction must match. */
function fallbackChecks(): Check[] {
  const epochs = [2305448.5, 2369916.25, 2415020.5, 2431000.75, 2472000.25, 2488070.5];
  return [
    {
      group: 'Second opinion',
      subject: '1600–2100, no ephemeris',
      quantity: 'declination',
      unit: '′',
      tolerance: 0.012,
      reason:
        'same vectors; astronomy-engine’s 5-term nutation differs by up to 0.01′ from our 77 terms over four centuries',
      source: 'astronomy-engine 2.1.19, Equator of date',
      expected: epochs.length * solarSystemNames.length,
      *cases(): Generator<Comparison> {
        for (const tt of epochs)
          for (const body of solarSystemNames) {
            const time = Engine.AstroTime.FromTerrestrialTime(tt - 2451545);
            const v = Engine.RotateVector(
              Engine.Rotation_EQJ_EQD(time),
              Engine.GeoVector(body as Engine.Body, time, true),
            );
            const place = apparentPlace(body, Instant.fromJulianDates({ tt }));
            if (place.source !== engineSolarSystem.label)
              throw new Error('the ephemeris covers this date');
            yield {
              label: `${body} TT ${tt}`,
              ours: place.declination.arcminutes,
              theirs: (Math.asin(v.z / Math.hypot(v.x, v.y, v.z)) / DEG) * 60,
            };
          }
      },
    },
  ].map((check) => ({ ...check, modulo: CIRCLE_ARCMIN }));
}

/** Places as seen: from the ground, rising and setting, by another theory, and pairs of stars. */
export function seenSkyChecks(): Check[] {
  return [
    ...horizonsChecks(),
    ...riseSetChecks(),
    ...binaryChecks(),
    ...engineChecks(),
    ...fallbackChecks(),
  ];
}
