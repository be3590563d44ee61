import {
  Duration,
  Instant,
  Position,
  riseSet,
  seededRandom,
  twilight,
  type BodyName,
  type TwilightKind,
} from 'cocked-hat';
import usno from './fixtures/rise-set.json';
import { pythonJson } from '../support/python.js';
import type { Check, Comparison } from './compare.js';

/** Printed to the minute by the U.S. Naval Observatory. */
function usnoCheck(): Check {
  return {
    group: 'Rise and set',
    subject: 'Sun and Moon, printed table',
    quantity: 'time',
    unit: 'min',
    tolerance: usno.tolerance_minutes,
    reason: 'printed to the minute; half a minute of rounding and what refraction rounding adds',
    source: usno.source,
    expected: usno.rows.length,
    *cases() {
      for (const [body, lon, lat, utc, kind] of usno.rows as [
        BodyName,
        number,
        number,
        string,
        'r' | 's',
      ][]) {
        const printed = Instant.utc(utc.replace('Z', ':00Z'));
        const from = printed.plus(Duration.hours(-6));
        const found = riseSet(body, Position.degrees(lat, lon), from, { span: Duration.hours(12) });
        const list = kind === 'r' ? found.rises : found.sets;
        const minutes = Math.min(...list.map((t) => Math.abs(t.minus(printed).minutes)), 999);
        yield { label: `${body} ${utc}`, ours: minutes, theirs: 0 };
      }
    },
  };
}

interface Case {
  readonly kind: 'Sun' | 'Moon' | 'Venus' | TwilightKind;
  readonly lat: number;
  readonly lon: number;
  readonly start: number;
}
const SKYFIELD = `
import warnings
warnings.filterwarnings('ignore')
from skyfield_data import get_skyfield_data_path
from skyfield.api import Loader, wgs84
from skyfield import almanac
load = Loader(get_skyfield_data_path(), verbose=False)
eph, ts = load('de421.bsp'), load.timescale(builtin=True)
names = {'Sun': 'sun', 'Moon': 'moon', 'Venus': 'venus'}
depth = {'civil': -6, 'nautical': -12, 'astronomical': -18}
answer = []
for c in given:
    observer = eph['earth'] + wgs84.latlon(c['lat'], c['lon'])
    t0, t1 = ts.tt_jd(c['start']), ts.tt_jd(c['start'] + 1)
    target = eph[names.get(c['kind'], 'sun')]
    h = depth.get(c['kind'])
    up, ok = almanac.find_risings(observer, target, t0, t1, h) if h else almanac.find_risings(observer, target, t0, t1)
    down, ok2 = almanac.find_settings(observer, target, t0, t1, h) if h else almanac.find_settings(observer, target, t0, t1)
    answer.append([[float(t.ut1) for t, k in zip(up, ok) if k], [float(t.ut1) for t, k in zip(down, ok2) if k],
                   float(t0.ut1)])
`;

/** Random places of middle latitude and times, 2020–2030. */
function skyfieldCheck(kind: Case['kind']): Check {
  const COUNT = 25;
  const seed = ['Sun', 'Moon', 'Venus', 'civil', 'nautical', 'astronomical'].indexOf(kind) + 20;
  const rng = seededRandom(seed);
  const cases: Case[] = Array.from({ length: COUNT }, () => ({
    kind,
    lat: 100 * rng.uniform() - 50,
    lon: 360 * rng.uniform() - 180,
    start: 2458849.5 + Math.floor(3650 * rng.uniform()),
  }));
  const theirs = () => pythonJson<[number[], number[], number][]>(SKYFIELD, cases);
  let stored: ReturnType<typeof theirs> | undefined;
  return {
    group: 'Rise and set',
    subject: ['Sun', 'Moon', 'Venus'].includes(kind) ? `${kind} rise and set` : `${kind} twilight`,
    quantity: 'time',
    unit: 's',
    tolerance: 1,
    reason:
      'a second is a tenth of what a rounded almanac gives; both use the same definitions and ephemeris',
    source: 'PyPI skyfield 1.55 with JPL DE421, almanac',
    expected: COUNT,
    *cases(): Generator<Comparison> {
      stored ??= theirs();
      for (const [i, c] of cases.entries()) {
        const [up, down, startUt1] = stored[i] as [number[], number[], number];
        const from = Instant.fromJulianDates({ tt: c.start, ut1: startUt1 });
        const at = Position.degrees(c.lat, c.lon);
        const found =
          kind === 'Sun' || kind === 'Moon' || kind === 'Venus'
            ? riseSet(kind, at, from)
            : (({ begins, ends }) => ({ rises: begins, sets: ends }))(twilight(kind, at, from));
        const ours = [...found.rises, ...found.sets].map((t) => t.minus(from).seconds);
        const other = [...up, ...down].map((ut1) => (ut1 - startUt1) * 86400);
        const worst =
          ours.length === other.length
            ? Math.max(0, ...ours.map((x, k) => Math.abs(x - (other[k] as number))))
            : NaN;
        yield { label: `${kind} ${JSON.stringify(c)}`, ours: worst, theirs: 0 };
      }
    },
  };
}

export function riseSetChecks(): Check[] {
  return [
    usnoCheck(),
    ...(['Sun', 'Moon', 'Venus', 'civil', 'nautical', 'astronomical'] as const).map(skyfieldCheck),
  ];
}
