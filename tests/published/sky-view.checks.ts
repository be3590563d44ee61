import type { Position } from 'cocked-hat';
import { Instant, position, solarSystemNames, type BodyName } from 'cocked-hat';
import catalogue from '../../data/nav-stars.json';
import { skyData } from '../../src/views/sky/sky-data.js';
import { SkyModel, startSettings } from '../../src/views/sky/sky-model.js';
import { pythonScript } from '../support/python.js';
import type { Check, Comparison } from './compare.js';

/** Twilights: at sea and ashore, both hemispheres, with Moon and without. */
const MOMENTS: readonly (readonly [Position, string])[] = [
  [position('15°30′ S', '005°10′ W'), '2027-05-14 18:40:00 UTC'],
  [position('22°57′ S', '014°30′ E'), '2027-05-02 03:55:00 UTC'],
  [position('07°55′ S', '014°25′ W'), '2027-05-28 19:20:00 UTC'],
  [position('48°30′ N', '008°00′ W'), '2026-12-20 17:10:00 UTC'],
];
const EYE_M = 2.6;
const INDEX_ARCMIN = -1.4;
const [LOWEST_DEG, HIGHEST_DEG, COUNT, OWN_ARCMIN, SHARED_ARCMIN] = [20, 65, 4, 0.7, 1];

const ORBITS = new Set(catalogue.binaries.map((b) => b.hip));
/** The brightest: in every sky more than twenty of all would be thinned out by brightness. */
const FAINTEST = 1.5;
const stars = catalogue.stars.filter((s) => !ORBITS.has(s.hip) && s.vMag <= FAINTEST);
const bodies: BodyName[] = [...solarSystemNames, ...stars.map((s) => s.name as BodyName)].filter(
  (name) => name !== 'Sun',
);

interface Answer {
  readonly versions: string;
  readonly moments: readonly {
    readonly bodies: Readonly<Record<string, readonly [number, number, number | null]>>;
    readonly set: {
      readonly bodies: readonly string[];
      readonly radial: number;
      readonly major: number;
      readonly minor: number;
      readonly azimuth: number;
    };
  }[];
}

const views = MOMENTS.map(([dr, time]) => {
  const data = {
    ...skyData({
      dr,
      time,
      eyeHeight: '2.6 m',
      indexError: '1.4′ off the arc',
      bodies,
      count: COUNT,
    }),
    ...{ lowestDeg: LOWEST_DEG, highestDeg: HIGHEST_DEG, moonGlareDeg: 0, faintest: 9 },
    ...{ sigmaArcmin: OWN_ARCMIN, sharedArcmin: SHARED_ARCMIN },
  };
  const model = new SkyModel(data);
  const settings = startSettings(data);
  const { bodies: seen } = model.moment(settings);
  return { label: time.slice(0, 16), seen, found: model.bestSet(settings) };
});

/** The sky view against skyfield (places and what to preset) and numpy (the best set and its ellipse), run now. */
export function skyViewChecks(): Check[] {
  const { versions, moments } = pythonScript<Answer>('tests/published/python/skyfield_view.py', {
    moments: MOMENTS.map(([dr, time]) => {
      const { tt, ut1 } = Instant.utc(time);
      return { tt, ut1, lat: dr.latDeg, lon: dr.lonDeg };
    }),
    stars,
    limbs: Object.fromEntries(
      solarSystemNames
        .filter((name) => name !== 'Sun')
        .map((name) => [name, name === 'Moon' ? 1737.4 : 0]),
    ),
    ...{ eye_m: EYE_M, index_arcmin: INDEX_ARCMIN, temperature_c: 10, pressure_hpa: 1010 },
    ...{ count: COUNT, own: OWN_ARCMIN, shared: SHARED_ARCMIN },
    ...{ lowest: LOWEST_DEG, highest: HIGHEST_DEG },
  });
  const source = `${versions}, run live`;
  const shown = views.flatMap(({ label, seen }, i) =>
    seen
      .filter((b) => b.isInReach)
      .map((b) => ({ label: `${b.body} ${label}`, ours: b, theirs: moments[i]?.bodies[b.body] })),
  );
  const place = (
    quantity: string,
    tolerance: number,
    reason: string,
    pick: (b: (typeof shown)[number]) => readonly [number, number],
  ): Check => ({
    ...{
      group: 'Sky view',
      subject: 'bodies in reach',
      quantity,
      unit: '′',
      tolerance,
      reason,
      source,
    },
    expected: shown.length,
    modulo: 21600,
    *cases() {
      for (const one of shown) {
        const [ours, theirs] = pick(one);
        yield { label: one.label, ours: ours * 60, theirs: theirs * 60 };
      }
    },
  });
  const set = (
    quantity: string,
    unit: string,
    tolerance: number,
    ours: (found: NonNullable<(typeof views)[number]['found']['set']>) => number,
    theirs: (set: Answer['moments'][number]['set']) => number,
    modulo?: number,
  ): Check => ({
    ...{ group: 'Sky view', subject: 'best set', quantity, unit, tolerance, source },
    reason:
      'one covariance, taken from azimuths that agree to 0.01′; a closed form against inverse and eigenvectors',
    expected: MOMENTS.length,
    ...(modulo === undefined ? {} : { modulo }),
    *cases(): Generator<Comparison> {
      for (const [i, { label, found }] of views.entries()) {
        const answer = moments[i]?.set;
        if (found.set && answer) yield { label, ours: ours(found.set), theirs: theirs(answer) };
      }
    },
  });
  const sameBodies: Check = {
    ...{ group: 'Sky view', subject: 'best set', quantity: 'bodies that differ', unit: '', source },
    tolerance: 0,
    reason: 'the same bodies',
    expected: MOMENTS.length,
    *cases() {
      for (const [i, { label, found }] of views.entries()) {
        const theirs = new Set(moments[i]?.set.bodies);
        const ours = found.set?.bodies.map((b) => b.body) ?? [];
        yield {
          label,
          ours: ours.filter((b) => !theirs.has(b)).length + COUNT - ours.length,
          theirs: 0,
        };
      }
    },
  };
  return [
    place('altitude', 0.002, 'same ephemeris and catalogue, as in the checks of places', (b) => [
      b.ours.altDeg,
      b.theirs?.[0] ?? NaN,
    ]),
    place(
      'azimuth',
      0.006,
      'as the altitude, opened by its cosine: at most 2.4 times up to 65°',
      (b) => [b.ours.azDeg, b.theirs?.[1] ?? NaN],
    ),
    place(
      'altitude to preset',
      0.08,
      'leading terms of the refraction of 59.9″ and 58.2″: 1.7″ cot 20° = 0.078′ apart at the lowest',
      (b) => [b.ours.presetDeg, b.theirs?.[2] ?? NaN],
    ),
    sameBodies,
    set(
      'radial σ',
      'nm',
      1e-4,
      (s) => s.radialNm,
      (t) => t.radial,
    ),
    set(
      'long axis',
      'nm',
      1e-4,
      (s) => s.majorNm,
      (t) => t.major,
    ),
    set(
      'short axis',
      'nm',
      1e-4,
      (s) => s.minorNm,
      (t) => t.minor,
    ),
    set(
      'bearing of the long axis',
      '°',
      0.05,
      (s) => s.majorAzimuth.degrees,
      (t) => t.azimuth,
      180,
    ),
  ];
}
