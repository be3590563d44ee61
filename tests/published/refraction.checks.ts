import { refractionFormulaKernel, refractionIntegralKernel } from 'cocked-hat';
import { pythonJson } from '../support/python.js';
import tables from './fixtures/altitude-tables.json';
import horizons from './fixtures/horizons.json';
import palpy from './fixtures/refraction-palpy.json';
import type { Check, Comparison } from './compare.js';

const STANDARD = [10, 1010] as const;
const toTenth = (arcmin: number) => Math.round(arcmin * 10) / 10;
/** `10 08` in degrees. */
const degreesOf = (text: string) => {
  const [degrees = NaN, minutes = NaN] = text.split(' ').map(Number);
  return degrees + minutes / 60;
};

type Edition = 'edition_to_2003' | 'edition_from_2004';
const rowsOf = (edition: Edition) =>
  tables.star_refraction[edition].rows as unknown as [string, number, number][];

/** The star table of the almanac, both editions, three ways. */
function starTable(edition: Edition, title: string): Check[] {
  const rows = rowsOf(edition);
  const source = `${tables.star_refraction.source}, ${title} (${tables.star_refraction.how})`;
  const base = { group: 'Corrections', subject: 'Refraction', unit: '′', source };
  return [
    {
      ...base,
      quantity: 'integral, star table to the printed tenth',
      tolerance: 1e-9,
      reason: 'every entry must round to the printed tenth in the middle of its interval',
      expected: rows.length - 1,
      *cases() {
        for (const [i, [boundary, , above]] of rows.slice(0, -1).entries()) {
          const middle = (degreesOf(boundary) + degreesOf(rows[i + 1]?.[0] ?? '')) / 2;
          yield {
            label: `from ${boundary}`,
            ours: toTenth(-refractionIntegralKernel(middle, ...STANDARD)),
            theirs: above,
          };
        }
      },
    },
    {
      ...base,
      quantity: 'integral at the limits of the star table',
      tolerance: 0.03,
      reason:
        'limits are printed to 1′ of altitude (0.004′ of refraction at 10°) and the table’s own constant is 58.2″ to 58.3″ where the standard atmosphere gives 58.0″ (0.02′ near 10°)',
      expected: rows.length,
      *cases() {
        for (const [boundary, below, above] of rows)
          yield {
            label: `at ${boundary}`,
            ours: -refractionIntegralKernel(degreesOf(boundary), ...STANDARD),
            theirs: (below + above) / 2,
          };
      },
    },
    {
      ...base,
      quantity: 'formula at the limits of the star table',
      tolerance: 0.1,
      reason: 'the almanac’s formula runs up to 0.09′ above its own star table near 10°–16°',
      expected: rows.length,
      *cases() {
        for (const [boundary, below, above] of rows)
          yield {
            label: `at ${boundary}`,
            ours: -refractionFormulaKernel(degreesOf(boundary), ...STANDARD),
            theirs: (below + above) / 2,
          };
      },
    },
  ];
}

const AIR_C = [-20, -10, 0, 10, 20, 30, 40];
const AIR_HPA = [980, 1010, 1040];

/** tan and tan³ terms of pyerfa, for dry air and yellow light. */
function refco(): Map<string, readonly [a: number, b: number]> {
  const air = AIR_C.flatMap((t) => AIR_HPA.map((p) => [t, p] as const));
  const answer = pythonJson<[number, number][]>(
    'import erfa\nanswer = [[float(x) for x in erfa.refco(p, t, 0.0, 0.574)] for t, p in given]',
    air,
  );
  return new Map(air.map(([t, p], i) => [`${t} ${p}`, answer[i] ?? [NaN, NaN]]));
}

function pyerfaCheck(from: number, to: number, tolerance: number, reason: string): Check {
  const altitudes = Array.from({ length: to - from + 1 }, (_, i) => from + i);
  return {
    group: 'Corrections',
    subject: 'Refraction',
    quantity: `integral, ${from}°–${to}°, −20 to 40 °C, 980–1040 hPa`,
    unit: '′',
    tolerance,
    reason,
    source: 'pyerfa 2.0.1.5, refco (A tan z + B tan³ z)',
    expected: altitudes.length * AIR_C.length * AIR_HPA.length,
    *cases() {
      for (const [air, [a, b]] of refco()) {
        const [t = NaN, p = NaN] = air.split(' ').map(Number);
        for (const h of altitudes) {
          const tan = Math.tan(((90 - h) * Math.PI) / 180);
          yield {
            label: `${h}°, ${t} °C, ${p} hPa`,
            ours: refractionIntegralKernel(h, t, p),
            theirs: ((a * tan + b * tan ** 3) * 180 * 60) / Math.PI,
          };
        }
      }
    },
  };
}

type PalpyRow = readonly [
  temperatureC: number,
  pressureHpa: number,
  altDeg: number,
  arcmin: number,
];
const palpyRows = palpy.rows as unknown as readonly PalpyRow[];

function palpyCheck(
  quantity: string,
  rows: readonly PalpyRow[],
  tolerance: number,
  reason: string,
  ours: (altDeg: number, temperatureC: number, pressureHpa: number) => number,
): Check {
  return {
    group: 'Corrections',
    subject: 'Refraction',
    quantity,
    unit: '′',
    tolerance,
    reason,
    source: palpy.source,
    expected: rows.length,
    *cases(): Generator<Comparison> {
      for (const [t, p, h, theirs] of rows)
        yield { label: `${h}°, ${t} °C, ${p} hPa`, ours: ours(h, t, p), theirs };
    },
  };
}

/** Refraction by the formula and by the integral. */
export function refractionChecks(): Check[] {
  const two = tables.refraction_two_formulas;
  const pairs = (
    horizons.refraction_pairs.rows as unknown as [number, number, number, string][]
  ).filter(([airless]) => airless >= 3);
  const twoSource = `${two.source} (${two.how})`;
  return [
    ...starTable('edition_to_2003', 'editions to 2003'),
    ...starTable('edition_from_2004', 'editions from 2004'),
    pyerfaCheck(15, 90, 0.005, 'two-term series: good to about 0.1″ (0.002′) at these altitudes'),
    pyerfaCheck(10, 14, 0.03, 'the two-term series leaves up to 1.5″ at a zenith distance of 80°'),
    palpyCheck(
      'integral, 5°–89°, −20 to 40 °C',
      palpyRows.filter((r) => r[2] >= 5),
      0.001,
      'one method programmed twice; printed to 0.00001′',
      refractionIntegralKernel,
    ),
    palpyCheck(
      'integral, −0.5°–4°, −20 to 40 °C',
      palpyRows.filter((r) => r[2] < 5),
      0.001,
      'one method programmed twice; printed to 0.00001′',
      refractionIntegralKernel,
    ),
    palpyCheck(
      'formula, 10°–89°, 0 to 40 °C',
      palpyRows.filter((r) => r[2] >= 10 && r[0] >= 0),
      0.12,
      'the almanac’s formula is 0.10′ above an exact integral near 10°, a little more in cold dense air',
      refractionFormulaKernel,
    ),
    {
      group: 'Corrections',
      subject: 'Refraction',
      quantity: 'formula against Bennett’s, 5°–30°',
      unit: '′',
      tolerance: 0.06,
      reason:
        'printed to 0.1′ (±0.05′); constants 7.32 and 4.32 for 7.31 and 4.4, which part below 5°',
      source: twoSource,
      expected: two.rows.filter(([h = NaN]) => h >= 5).length,
      *cases() {
        for (const [h = NaN, bennett = NaN] of two.rows.filter(([h = NaN]) => h >= 5))
          yield { label: `${h}°`, ours: refractionFormulaKernel(h, ...STANDARD), theirs: bennett };
      },
    },
    {
      group: 'Corrections',
      subject: 'Refraction',
      quantity: 'integral against the Explanatory Supplement’s low-altitude formula, 1°–12°',
      unit: '′',
      tolerance: 0.1,
      reason: 'printed to 0.1′, and that formula is itself a fit',
      source: twoSource,
      expected: two.rows.filter(([h = NaN]) => h >= 1 && h <= 12).length,
      *cases() {
        for (const [h = NaN, , supplement = NaN] of two.rows)
          if (h >= 1 && h <= 12)
            yield {
              label: `${h}°`,
              ours: refractionIntegralKernel(h, ...STANDARD),
              theirs: supplement,
            };
      },
    },
    {
      group: 'Corrections',
      subject: 'Refraction',
      quantity: 'formula against the pairs of JPL Horizons, 3°–80°',
      unit: '′',
      tolerance: 0.1,
      reason:
        'JPL uses Saemundsson’s formula, stated consistent with Bennett’s to 0.07′; the pairs are printed to 0.012′',
      source: 'JPL Horizons, apparent minus airless elevation, retrieved 2019',
      expected: pairs.length,
      *cases() {
        for (const [airless, apparent, arcmin] of pairs)
          yield {
            label: `${airless}°`,
            ours: refractionFormulaKernel(apparent, ...STANDARD),
            theirs: arcmin,
          };
      },
    },
  ];
}
