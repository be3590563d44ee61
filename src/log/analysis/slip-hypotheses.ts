import { bodyNames, isSolarSystem } from '../../core/sky/index.js';
import { formatAngle } from '../../core/units/index.js';
import * as print from '../columns/print-value.js';
import type { LogRow } from '../sight-log.js';

/** A slip and the row as it would be without it. */
export interface SlipHypothesis {
  readonly slip: string;
  /** What the row should have said. */
  readonly undone: string;
  readonly change: Partial<Record<keyof LogRow, unknown>>;
  /** How often such a slip is made, against the others: common practice, no source. */
  readonly odds: number;
}

/** All the slips tried on a reading. */
export function slipHypotheses(row: LogRow): SlipHypothesis[] {
  return [...readingSlips(row), ...timeSlips(row), ...sextantSlips(row), ...bodySlips(row)];
}

function readingSlips(row: LogRow): SlipHypothesis[] {
  const reading = (slip: string, deg: number, odds: number): SlipHypothesis => ({
    slip,
    undone: `reading ${formatAngle(deg)}`,
    change: { readingDeg: deg },
    odds,
  });
  const by = (slip: string, arcmin: number, odds: number) => [
    reading(`${slip} too many`, row.readingDeg - arcmin / 60, odds),
    reading(`${slip} too few`, row.readingDeg + arcmin / 60, odds),
  ];
  return [
    ...by('ten minutes of arc', 10, 1),
    ...by('twenty minutes of arc', 20, 0.3),
    ...by('five minutes of arc', 5, 0.2),
    ...by('a whole degree', 60, 1),
    ...by('ten degrees', 600, 0.3),
    ...swappedFigures(row.readingDeg).map((deg) =>
      reading('figures of the minutes swapped', deg, 0.5),
    ),
  ];
}

/** Tens and units of the minutes in the other order, where they differ and the result is under sixty. */
function swappedFigures(deg: number): number[] {
  const tenths = Math.round(deg * 600);
  const [whole, rest] = [Math.floor(tenths / 600), tenths % 600];
  const [tens, units, tenth] = [Math.floor(rest / 100), Math.floor(rest / 10) % 10, rest % 10];
  return tens === units || units > 5 ? [] : [whole + (units * 100 + tens * 10 + tenth) / 600];
}

function timeSlips(row: LogRow): SlipHypothesis[] {
  const late = (what: string, seconds: number, odds: number): SlipHypothesis[] =>
    [seconds, -seconds].map((s) => ({
      slip: `${what} too ${s > 0 ? 'late' : 'early'}`,
      undone: `time ${print.utc(row.utcMs - s * 1000).slice(11)}`,
      change: { utcMs: row.utcMs - s * 1000 },
      odds,
    }));
  return [
    ...late('a minute of time', 60, 1),
    ...late('ten seconds of time', 10, 0.3),
    ...late('an hour', 3600, 0.5),
    ...late('a day', 86_400, 0.2),
  ];
}

function sextantSlips(row: LogRow): SlipHypothesis[] {
  const list: SlipHypothesis[] = [];
  const add = (slip: string, undone: string, change: SlipHypothesis['change'], odds: number) =>
    list.push({ slip, undone, change, odds });
  if (row.limb !== 'centre') {
    const other = row.limb === 'lower' ? 'upper' : 'lower';
    add(`the ${other} limb, noted as ${row.limb}`, `${other} limb`, { limb: other }, 1);
  }
  const index = row.indexErrorArcmin ?? 0;
  if (index !== 0)
    add('index error on the wrong side', print.indexError(-index), { indexErrorArcmin: -index }, 1);
  if (row.horizon !== 'artificial' && row.readingDeg > 20)
    add(
      'an artificial horizon, noted as another',
      'artificial horizon',
      { horizon: 'artificial' },
      0.2,
    );
  return list;
}

/** Another star taken for this one; the Sun and the Moon are not mistaken. */
function bodySlips(row: LogRow): SlipHypothesis[] {
  if (row.body === 'Sun' || row.body === 'Moon') return [];
  return bodyNames
    .filter((b) => b !== row.body && b !== 'Sun' && b !== 'Moon')
    .map((body) => ({
      slip: `${body} taken for ${row.body}`,
      undone: body,
      change: { body },
      odds: isSolarSystem(body) ? 0.05 : 0.02,
    }));
}
