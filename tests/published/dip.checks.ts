import { dipKernel, dipShortKernel, horizonDistanceKernel } from 'cocked-hat';
import tables from './fixtures/altitude-tables.json';
import type { Check } from './compare.js';

const FOOT_M = 0.3048;
const MILE_M = 1852;
const toTenth = (arcmin: number) => Math.round(arcmin * 10) / 10;
const TABLE_REASON =
  'printed to 0.1′ (±0.05′), and the table is made with 1.76′√h where the almanac’s direct computation has 1.758′';

/** Dip of the sea horizon and of a waterline. */
export function dipChecks(): Check[] {
  const almanac = tables.dip_almanac;
  const source = `${almanac.source} (${almanac.how})`;
  const critical = almanac.critical_metres.rows as [number, number, number][];
  const table = (unit: string, rows: number[][], metresPer: number): Check => ({
    group: 'Corrections',
    subject: 'Dip',
    quantity: `almanac table, ${unit}`,
    unit: '′',
    tolerance: 0.07,
    reason: TABLE_REASON,
    source,
    expected: rows.length,
    *cases() {
      for (const [height = NaN, printed = NaN] of rows)
        yield {
          label: `${height} ${unit}`,
          ours: -dipKernel(height * metresPer),
          theirs: printed,
        };
    },
  });
  return [
    table('metres', almanac.metres, 1),
    table('feet', almanac.feet, FOOT_M),
    {
      group: 'Corrections',
      subject: 'Dip',
      quantity: 'almanac critical table, to the printed tenth',
      unit: '′',
      tolerance: 1e-9,
      reason: 'every entry must round to the printed tenth in the middle of its interval',
      source,
      expected: critical.length,
      *cases() {
        for (const [from, to, printed] of critical)
          yield {
            label: `${from}–${to} m`,
            ours: toTenth(-dipKernel((from + to) / 2)),
            theirs: printed,
          };
      },
    },
    {
      group: 'Corrections',
      subject: 'Dip short of the horizon',
      quantity: 'approximate formula, 5–40 ft at 0.5–3 nmi',
      unit: '′',
      tolerance: 0.1,
      reason: 'the approximation 0.4156 d + 0.5658 h/d is held to agree to 0.1′',
      source: `${tables.dip_short_formula.source} (${tables.dip_short_formula.how})`,
      expected: 16,
      *cases() {
        for (const feet of [5, 10, 20, 40])
          for (const miles of [0.5, 1, 2, 3])
            yield {
              label: `${feet} ft, ${miles} nmi`,
              ours: dipShortKernel(feet * FOOT_M, miles * MILE_M),
              theirs: 0.4156 * miles + (0.5658 * feet) / miles,
            };
      },
    },
    {
      group: 'Corrections',
      subject: 'Distance of the horizon',
      quantity: 'Table 12',
      unit: 'nmi',
      tolerance: 0.11,
      reason:
        'printed to 0.1; Table 12 is made with 1.17√h, the dip of Table 14 has its least value at 1.1665√h, 0.1 nmi less at 820 ft',
      source: tables.bowditch_table_12_distance_of_horizon.source,
      expected: tables.bowditch_table_12_distance_of_horizon.rows.length,
      *cases() {
        for (const [feet = NaN, printed = NaN] of tables.bowditch_table_12_distance_of_horizon.rows)
          yield {
            label: `${feet} ft`,
            ours: horizonDistanceKernel(feet * FOOT_M) / MILE_M,
            theirs: printed,
          };
      },
    },
  ];
}
