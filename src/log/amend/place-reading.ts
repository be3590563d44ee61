import type { CellValue } from '../columns/column.js';
import { ROUND_GAP_MS, SIGHT_GAP_MS, SIGHT_MOST } from '../table/group-readings.js';
import { roundName } from '../table/round-name.js';
import type { RowStore, RowValues } from './row-store.js';

/** What readings of one sight have in common, and how it is called. */
const ALIKE = [
  ['body', 'body'],
  ['limb', 'limb'],
  ['observer', 'observer'],
  ['instrument', 'sextant'],
  ['horizon', 'horizon'],
] as const;

/** How two readings differ so that they cannot be of one sight; null when they can. */
export function unlike(a: RowValues, b: RowValues): string | null {
  return ALIKE.find(([key]) => (a[key] ?? null) !== (b[key] ?? null))?.[1] ?? null;
}

/** The lowest number that no sight of the round has. */
export function freeSight(store: RowStore, round: CellValue): string {
  const taken = new Set<CellValue | undefined>();
  for (const n of store.numbers())
    if (store.row(n)?.['round'] === round) taken.add(store.row(n)?.['sight']);
  let next = 1;
  while (taken.has(String(next))) next += 1;
  return String(next);
}

/**
 * Round and sight for a new reading that names none: the round of the reading nearest in time within an hour, else a
 * new one named by date and part of the day; the sight of a like reading up to 90 s before it that has fewer than
 * three, else the next free number.
 */
export function placeReading(store: RowStore, row: RowValues): { round: string; sight: string } {
  const round = String(row['round'] ?? roundFor(store, row));
  const sight = String(row['sight'] ?? sightFor(store, row, round) ?? freeSight(store, round));
  return { round, sight };
}

const msOf = (row: RowValues) => row['utcMs'] as number;

function roundFor(store: RowStore, row: RowValues): string {
  let near: RowValues | undefined;
  let least = ROUND_GAP_MS;
  const names = new Set<CellValue | undefined>();
  for (const n of store.numbers()) {
    const other = store.row(n) as RowValues;
    names.add(other['round']);
    const gap = Math.abs(msOf(other) - msOf(row));
    if (gap <= least) [near, least] = [other, gap];
  }
  if (near) return String(near['round']);
  const base = roundName(Object.fromEntries(Object.entries(row).map(([k, v]) => [k, [v]])), [0]);
  let name = base;
  for (let n = 2; names.has(name); n++) name = `${base} ${n}`;
  return name;
}

function sightFor(store: RowStore, row: RowValues, round: string): string | undefined {
  let last: RowValues | undefined;
  const counts = new Map<CellValue | undefined, number>();
  for (const n of store.numbers()) {
    const other = store.row(n) as RowValues;
    if (other['round'] !== round) continue;
    counts.set(other['sight'], (counts.get(other['sight']) ?? 0) + 1);
    const gap = msOf(row) - msOf(other);
    if (gap < 0 || gap > SIGHT_GAP_MS || unlike(row, other)) continue;
    if (!last || msOf(other) >= msOf(last)) last = other;
  }
  if (!last || (counts.get(last['sight']) ?? 0) >= SIGHT_MOST) return undefined;
  return String(last['sight']);
}
