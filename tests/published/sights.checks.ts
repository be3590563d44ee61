import {
  Angle,
  celsius,
  hectopascals,
  Instant,
  metres,
  observedAltitude,
  Position,
  position,
  sight,
  type BodyName,
  type Horizon,
} from 'cocked-hat';
import { pythonScript } from '../support/python.js';
import sights from './fixtures/sextant-sights.json';
import type { Check } from './compare.js';

const sourceOf = (id: string) => sights.entries.find((e) => e.id === id)?.source ?? 'missing';

interface MadeReading {
  readonly body: BodyName;
  readonly limb: -1 | 0 | 1;
  readonly horizon: 'natural' | 'bubble' | 'artificial' | 'back';
  readonly lat: number;
  readonly utc: string;
  readonly reading_deg: number;
  readonly geocentric_alt_deg: number;
}
const MADE = {
  latitudes: [0, -16, 35, -52, 68],
  longitude: -5.7,
  days: Array.from({ length: 24 }, (_, i) => [2000 + i, 1 + ((i * 5) % 12), 1 + i, (i * 7) % 24]),
  sd_km: { Sun: 696000, Moon: 1737.4 },
  temperature_c: 24,
  pressure_hpa: 1013,
  eye_m: 3.2,
  index_arcmin: 1.7,
};
let made: readonly MadeReading[] | undefined;
const madeReadings = () =>
  (made ??= pythonScript<MadeReading[]>('tests/published/python/skyfield_sights.py', MADE));

/** Readings that two libraries say a sextant would show, worked back through every correction. */
function madeSights(horizon: MadeReading['horizon'], title: string, expected: number): Check {
  const kind: Horizon = { kind: horizon === 'back' ? 'natural' : horizon };
  return {
    group: 'Sights',
    subject: 'Sun, Moon, Jupiter, Saturn',
    quantity: `observed altitude, ${title}`,
    unit: '′',
    tolerance: 0.007,
    reason:
      'diurnal aberration 0.0053′, refraction series 0.0007′, semi-diameter on a flattened Earth 0.0007′',
    source: 'skyfield 1.55 (topocentric place and limb) with pyerfa 2.0.1.5 (refraction)',
    expected,
    *cases() {
      for (const m of madeReadings().filter((r) => r.horizon === horizon)) {
        const s = sight({
          body: m.body,
          limb: m.limb < 0 ? 'lower' : m.limb > 0 ? 'upper' : 'centre',
          reading: Angle.degrees(m.reading_deg),
          time: Instant.utc(m.utc),
          horizon: kind,
          eyeHeight: metres(MADE.eye_m),
          indexError: Angle.arcminutes(MADE.index_arcmin),
          temperature: celsius(MADE.temperature_c),
          pressure: hectopascals(MADE.pressure_hpa),
          refractionModel: 'integral',
          dr: Position.degrees(m.lat, MADE.longitude),
        });
        yield {
          label: `${m.body} ${m.limb} ${m.lat}° ${m.utc}`,
          ours: observedAltitude(s).value.arcminutes,
          theirs: m.geocentric_alt_deg * 60,
        };
      }
    },
  };
}

/** Whole sights in print, from the reading to the observed altitude. */
export function sightChecks(): Check[] {
  return [
    madeSights('natural', 'sea horizon', 242),
    madeSights('bubble', 'bubble', 242),
    madeSights('artificial', 'artificial horizon', 242),
    madeSights('back', 'back sight', 150),
    {
      group: 'Sights',
      subject: 'Sun, lower limb, 1984',
      quantity: 'observed altitude',
      unit: '′',
      tolerance: 0.2,
      reason: 'the printed one is worked from tables rounded to 0.1′, the sum of four',
      source: sourceOf('navedtra-sunline-1984'),
      expected: 1,
      *cases() {
        const s = sight({
          body: 'Sun',
          limb: 'lower',
          reading: '25°46.9′',
          time: '1984-03-31 09:15:38 UTC',
          eyeHeight: '50 ft',
          indexError: '1.0′ on the arc',
          dr: position('36°32.8′ N', '18°10.0′ W'),
        });
        yield {
          label: '1984-03-31 09:15:38',
          ours: observedAltitude(s).value.arcminutes,
          theirs: 25 * 60 + 53.3,
        };
      },
    },
    {
      group: 'Sights',
      subject: 'Sun, lower limb, 1870',
      quantity: 'observed altitude',
      unit: '′',
      tolerance: 0.2,
      reason: 'tables of 1871, each rounded to 1″–5″, and another refraction',
      source: sourceOf('time-sight-1870-mar'),
      expected: 1,
      *cases() {
        // Printed: 20d 20h46m24s, counted from noon, so 21 March 08:46:24 from midnight.
        const s = sight({
          body: 'Sun',
          limb: 'lower',
          reading: '10°55′',
          time: '1870-03-21 08:46:24 UTC',
          eyeHeight: '20 ft',
          indexError: '4′50″ on the arc',
        });
        yield {
          label: '1870-03-21 08:46:24',
          ours: observedAltitude(s).value.arcminutes,
          theirs: 10 * 60 + 57 + 10 / 60,
        };
      },
    },
  ];
}
