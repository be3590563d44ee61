import type { BodyName } from '../../core/sky/index.js';
import * as print from '../columns/print-value.js';
import type { RowBuffer } from './row-buffer.js';

/** Something about a row as a whole: it must be refused, or it is worth a look. */
export interface RowFinding {
  readonly key: string;
  readonly refuse: boolean;
  readonly reason: string;
}

type Row = RowBuffer;

/**
 * Checks what no cell can know alone, and fills in what follows from the rest without a guess: UTC from watch time
 * and watch error, the centre for a star or planet, DR for a position of no stated kind, accepted for a blank.
 */
export function checkRow(row: Row): RowFinding[] {
  return [
    ...mustHave(row),
    ...time(row),
    ...limb(row),
    ...horizon(row),
    ...place(row),
    ...verdict(row),
  ];
}

const refuse = (key: string, reason: string): RowFinding => ({ key, refuse: true, reason });
const look = (key: string, reason: string): RowFinding => ({ key, refuse: false, reason });
const lacks = (row: Row, key: string) => row.get(key) === null;

function mustHave(row: Row): RowFinding[] {
  return [
    ...(lacks(row, 'body')
      ? [refuse('body', 'The body is missing. Write Sun, Moon, Venus … or a star.')]
      : []),
    ...(lacks(row, 'readingDeg')
      ? [refuse('readingDeg', 'The reading is missing. Write 34°17.6′.')]
      : []),
  ];
}

function time(row: Row): RowFinding[] {
  const watch = row.get('watchMs');
  const error = row.get('watchErrorS');
  const utc = row.get('utcMs');
  if (typeof watch === 'number' && typeof error === 'number') {
    const worked = watch - error * 1000;
    if (typeof utc !== 'number') {
      row.set('utcMs', worked);
      return [];
    }
    const off = (utc - worked) / 1000;
    return Math.abs(off) < 1
      ? []
      : [
          look(
            'watchMs',
            `Watch time and watch error give ${print.utc(worked)}, ${Math.abs(off)} s from the UTC in the row, which was used.`,
          ),
        ];
  }
  if (typeof utc === 'number') return [];
  return typeof watch === 'number'
    ? [refuse('watchErrorS', 'The watch error is missing, so UTC is not known. Write 12 s slow.')]
    : [refuse('utcMs', 'The time is missing. Write 2027-05-11 09:42:17.')];
}

function limb(row: Row): RowFinding[] {
  const body = row.get('body') as BodyName | null;
  if (!body) return [];
  const has = row.get('limb');
  const disc = body === 'Sun' || body === 'Moon';
  if (disc && lacks(row, 'limb'))
    return [refuse('limb', `The limb of the ${body} is missing. Write lower, upper or centre.`)];
  if (!disc && has && has !== 'centre')
    return [refuse('limb', `${body} has no ${String(has)} limb. Leave the cell empty.`)];
  if (lacks(row, 'limb')) row.set('limb', 'centre');
  return [];
}

function horizon(row: Row): RowFinding[] {
  const kind = row.get('horizon') ?? null;
  const reading = row.get('readingDeg');
  if (kind === 'short' && lacks(row, 'horizonDistanceM'))
    return [refuse('horizonDistanceM', 'A short horizon needs its distance. Write 420 m.')];
  if (kind !== 'short' && !lacks(row, 'horizonDistanceM'))
    return [
      look(
        'horizonDistanceM',
        'A distance is given, but the horizon is not short; the distance was not used.',
      ),
    ];
  if (kind !== 'artificial' && typeof reading === 'number' && reading > 95)
    return [
      look(
        'readingDeg',
        'A reading over 95° is a back sight, or an artificial horizon that the row does not name.',
      ),
    ];
  return [];
}

function place(row: Row): RowFinding[] {
  const [lat, lon] = [lacks(row, 'latDeg'), lacks(row, 'lonDeg')];
  if (lat !== lon)
    return lat
      ? [refuse('latDeg', 'There is a longitude without a latitude. Write 19°31.0′ S.')]
      : [refuse('lonDeg', 'There is a latitude without a longitude. Write 001°12.0′ W.')];
  if (!lat && lacks(row, 'positionKind')) row.set('positionKind', 'DR');
  if (lacks(row, 'courseDeg') && typeof row.get('speedKn') === 'number' && row.get('speedKn') !== 0)
    return [refuse('courseDeg', 'There is a speed without a course. Write 312°.')];
  return [];
}

function verdict(row: Row): RowFinding[] {
  if (lacks(row, 'accepted')) row.set('accepted', true);
  const accepted = row.get('accepted');
  if (accepted === false && lacks(row, 'reason'))
    return [look('accepted', 'The reading is not used, but no reason is given.')];
  if (accepted === true && !lacks(row, 'reason'))
    return [look('reason', 'A reason is given, but the reading is used.')];
  return [];
}
