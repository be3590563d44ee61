import { Instant, magneticVariation, Position, seededRandom } from 'cocked-hat';
import { pythonJson } from '../support/python.js';
import type { Check } from './compare.js';

/** Rows at sea level of the test values that NOAA/NCEI publishes with WMM2020 and WMM2025 (in npm geomagnetism 0.2.0, test/values.csv). */
const PRINTED = [
  { at: '2022-07-02 12:00:00 UTC', lat: -13, lon: -59, variation: -16.65 },
  { at: '2027-07-02 12:00:00 UTC', lat: -13, lon: -59, variation: -17.49 },
] as const;

const PYGEOMAG = `
from pygeomag import GeoMag
models = {}
answer = []
for c in given:
    name = c['model']
    if name not in models: models[name] = GeoMag(coefficients_file='wmm/%s.COF' % name)
    r = models[name].calculate(glat=c['lat'], glon=c['lon'], alt=0, time=c['year'])
    answer.append([r.d, r.h, r.calculate_uncertainty().d if r.h >= 2000 else None])
`;

interface Case {
  readonly lat: number;
  readonly lon: number;
  readonly year: number;
  readonly model: string;
}

/** Places of the whole globe but the polar caps, where the force may be too weak, over the years of two models. */
function places(): Case[] {
  const random = seededRandom(2027);
  return Array.from({ length: 400 }, (_, i) => ({
    lat: 120 * random.uniform() - 60,
    lon: 360 * random.uniform() - 180,
    year: i % 2 ? 2025 + 4.8 * random.uniform() : 2020 + 4.8 * random.uniform(),
    model: i % 2 ? 'WMM_2025' : 'WMM_2020',
  }));
}

/** A decimal year counted by days of 1/365, as both packages count it in common years; leap years differ by a day at most. */
const instantOf = (year: number): Instant => {
  const start = Date.UTC(Math.floor(year), 0, 1);
  return Instant.fromEpochMs(start + (year % 1) * 365 * 86_400_000);
};

type Answer = [number, number, number][];
let answers: Answer | undefined;
const fromPython = (cases: readonly Case[]): Answer =>
  (answers ??= pythonJson<Answer>(PYGEOMAG, cases));

/** Checks of the magnetic variation. */
export function variationChecks(): Check[] {
  const common = { group: 'Compass', unit: '°', source: 'pygeomag 1.1.0 (WMM2020, WMM2025)' };
  return [
    {
      group: 'Compass',
      subject: 'Magnetic variation, printed',
      quantity: 'variation',
      unit: '°',
      tolerance: 0.01,
      reason: 'printed to 0.01°',
      source: 'NOAA/NCEI, test values of WMM2020 and WMM2025 at sea level',
      expected: PRINTED.length,
      *cases() {
        for (const p of PRINTED) {
          const ours = magneticVariation(Position.degrees(p.lat, p.lon), Instant.utc(p.at));
          yield { label: p.at, ours: ours.value.degrees, theirs: p.variation };
        }
      },
    },
    {
      ...common,
      subject: 'Magnetic variation, 60° S to 60° N',
      quantity: 'variation',
      tolerance: 0.005,
      reason: 'half a hundredth of a degree: a day more or less in a leap year moves 0.001°',
      expected: 400,
      *cases() {
        const cases = places();
        for (const [i, [theirs]] of fromPython(cases).entries()) {
          const c = cases[i]!;
          const ours = magneticVariation(Position.degrees(c.lat, c.lon), instantOf(c.year));
          yield {
            label: `${c.year.toFixed(3)} ${c.lat} ${c.lon}`,
            ours: ours.value.degrees,
            theirs,
          };
        }
      },
    },
    {
      ...common,
      subject: 'Magnetic variation, WMM2025',
      quantity: 'error of the model, 1σ',
      tolerance: 0.001,
      reason: 'the same formula of the WMM2025 report',
      expected: 200,
      *cases() {
        const cases = places();
        for (const [i, [, , theirs]] of fromPython(cases).entries()) {
          const c = cases[i]!;
          if (c.model !== 'WMM_2025') continue;
          const ours = magneticVariation(Position.degrees(c.lat, c.lon), instantOf(c.year));
          yield { label: `${c.lat} ${c.lon}`, ours: ours.uncertainty.sigma.degrees, theirs };
        }
      },
    },
  ];
}
