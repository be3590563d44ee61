import { expect, test } from 'vitest';
import {
  almanacEntry,
  dip,
  indexErrorFromHorizon,
  metres,
  observedAltitude,
  position,
  providedEphemeris,
  provideEphemeris,
  reduce,
  refraction,
  sight,
  type SightFields,
} from '../../src/index.js';
import { DISPLAY, MIME } from '../../src/views/mime.js';
import { checkWorkingData } from '../../src/views/working/working-check.js';
import { Rework } from '../../src/views/working/recompute.js';
import { workingBundle } from '../../src/views/working/working-view.js';
import type { WorkingData } from '../../src/views/working/working-data.js';
import { sampleWorking } from '../support/sample-working.js';

const MOON: SightFields = {
  body: 'Moon',
  limb: 'upper',
  reading: '33°22.1′',
  time: '2027-05-14 17:20:11 UTC',
  eyeHeight: '2.6 m',
  indexError: '0.8′ on the arc',
  dr: position('18°12′ S', '001°02′ W'),
};

const dataOf = (bundle: Record<string, unknown>): WorkingData =>
  checkWorkingData(JSON.parse(JSON.stringify(bundle[MIME.working])));

/** The work of a page: no ephemeris but what the view carries. */
function inAPage<T>(work: () => T): T {
  const before = providedEphemeris();
  provideEphemeris(undefined);
  try {
    return work();
  } finally {
    provideEphemeris(before);
  }
}

test('a working shows itself as interactive data, as a table in HTML and as text', () => {
  const shown = sampleWorking()[DISPLAY as never] as unknown as () => Record<string, unknown>;
  const bundle = shown.call(sampleWorking());
  expect(Object.keys(bundle)).toEqual([MIME.working, 'text/html', 'text/plain']);
  expect(bundle['text/plain']).toContain('Dip of the horizon  1.758 √2.6');
  expect(bundle['text/html']).toContain('<th scope="row"');
  expect(bundle['text/html']).toContain('Dip of the horizon: almanac, direct computation');
});

test('a page works out the same figures as the library, to the last digit, from what the view carries', () => {
  for (const working of [
    observedAltitude(sight(MOON)),
    reduce(sight(MOON)),
    refraction(sight(MOON)),
  ]) {
    const data = dataOf(workingBundle(working));
    const again = inAPage(() => Rework.from(data.inputs!).with({}).data);
    expect(again.rows.map((row) => row.runningDeg ?? row.running)).toEqual(
      data.rows.map((row) => row.runningDeg ?? row.running),
    );
    expect(again.rows.map((row) => row.source)).toEqual(data.rows.map((row) => row.source));
  }
});

const ASHORE: SightFields = {
  body: 'Sun',
  reading: ['39°13.7′', '39°20.1′'],
  time: ['2027-05-11 09:42:17 UTC', '2027-05-11 09:42:57.5 UTC'],
  dr: position('19°31′ S', '001°12′ W'),
};
const SUN: SightFields = { ...ASHORE, eyeHeight: '9 ft' };
const EVERY_KIND: Readonly<Record<string, SightFields>> = {
  'several readings': SUN,
  'an artificial horizon': { ...ASHORE, horizon: 'artificial' },
  'a waterline': { ...SUN, horizon: 'short', waterlineDistance: '0.4 nmi' },
  'a watch with a rate': {
    ...SUN,
    watch: { error: '12 s fast', rate: '1.5 s gaining', checked: '2027-05-10 08:00:00 UTC' },
  },
  'a printed almanac': {
    ...SUN,
    place: almanacEntry({
      gha: '326°28.2′',
      declination: 'N 17°52.3′',
      sd: '15.8′',
      hp: '0.1′',
      source: 'an almanac of 2027',
    }),
  },
  'a certificate': {
    ...SUN,
    instrumentTable: [
      ['0°', '0.0′'],
      ['60°', '+0.4′'],
    ],
  },
  'an index check': {
    ...SUN,
    indexError: indexErrorFromHorizon(['0.8′ on the arc', '1.0′ on the arc']),
  },
  'a budget and a session': {
    ...SUN,
    errorBudget: { dip: '0.6′' },
    session: 'forenoon',
    indexCheckKey: 'morning',
    refractionModel: 'integral',
  },
  'a planet': { ...MOON, body: 'Venus', limb: 'centre', reading: '33°22.1′' },
};

for (const [kind, fields] of Object.entries(EVERY_KIND))
  test(`a sight with ${kind} comes out of its view as it went in`, () => {
    for (const working of [observedAltitude(sight(fields)), reduce(sight(fields))]) {
      const data = dataOf(workingBundle(working));
      const again = Rework.from(data.inputs!).with({}).data;
      const figures = (d: WorkingData) =>
        d.rows.map((r) => [r.rule, r.running, r.runningDeg, r.sigmaArcmin]);
      expect(figures(again)).toEqual(figures(data));
    }
  });

test('a moved figure gives what the library gives for that figure, and a moved watch moves the body', () => {
  const data = dataOf(workingBundle(reduce(sight(MOON))));
  const moved = inAPage(() =>
    Rework.from(data.inputs!).with({ eyeHeightM: 4, pressureHpa: 1002, watchErrorS: 42 }),
  );
  const expected = reduce(
    sight({
      ...MOON,
      eyeHeight: metres(4),
      pressure: '1002 hPa',
      watch: { error: '42 s fast', sigma: '0 s' },
    }),
  );
  expect(moved.data.rows.at(-1)?.interceptNm).toBeCloseTo(
    expected.value.intercept.nauticalMiles,
    9,
  );
});

test('leaving the dip out makes the altitude too great by the dip and what hangs on it', () => {
  const data = dataOf(workingBundle(observedAltitude(sight(MOON))));
  const { slip } = Rework.from(data.inputs!).with({ leftOut: ['dip'] });
  const without = observedAltitude(sight({ ...MOON, horizon: 'bubble' })).value;
  const withDip = observedAltitude(sight(MOON)).value;
  expect(slip?.arcmin).toBeCloseTo(without.minus(withDip).arcminutes, 9);
  expect(slip?.arcmin).toBeCloseTo(-dip(sight(MOON)).value.arcminutes, 1);
});

test('a step left out keeps its figure to be seen, and the rows after it follow', () => {
  const data = dataOf(workingBundle(observedAltitude(sight(MOON))));
  const { data: wrong } = Rework.from(data.inputs!).with({ leftOut: ['semidiameter'] });
  const row = (d: WorkingData, rule: string) => d.rows.find((r) => r.rule === rule);
  expect(row(wrong, 'semidiameter')?.correction).toBe(row(data, 'semidiameter')?.correction);
  expect(row(wrong, 'semidiameter')?.runningDeg).toBe(row(wrong, 'refraction')?.runningDeg);
  expect(row(wrong, 'observed')?.runningDeg).toBeGreaterThan(
    row(data, 'observed')!.runningDeg! + 0.2,
  );
});

test('an impossible figure is refused in words', () => {
  const data = dataOf(workingBundle(observedAltitude(sight(MOON))));
  expect(() => Rework.from(data.inputs!).with({ temperatureC: 400 })).toThrow(/temperature/i);
});

test('data that are not those of a working are refused with the path of the mistake', () => {
  const data = JSON.parse(JSON.stringify(workingBundle(sampleWorking())[MIME.working]));
  data.rows[1].varianceShare = '<img src=x onerror=alert(1)>';
  expect(() => checkWorkingData(data)).toThrow(/rows\[1\]\.varianceShare/);
  for (const junk of [null, 7, 'text', [], {}, { format: 1 }, { rows: {} }])
    expect(() => checkWorkingData(junk)).toThrow(/cannot be read/);
});
