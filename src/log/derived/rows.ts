import type { CellValue } from '../columns/column.js';
import type { ReadingRow } from '../table/reading-row.js';

/** Row `i` of these columns as one object. */
export function rowAt(columns: Record<string, ArrayLike<CellValue>>, i: number): ReadingRow {
  const row: Record<string, CellValue> = {};
  for (const key in columns) row[key] = columns[key]?.[i] ?? null;
  return row as unknown as ReadingRow;
}

/** Row numbers by round and, within it, by sight; in order of time. */
export function byRoundAndSight(
  columns: Record<string, ArrayLike<CellValue>>,
  rows: Iterable<number>,
): Map<string, Map<string, number[]>> {
  const time = columns['utcMs'] as ArrayLike<number>;
  const order = [...rows].sort((a, b) => (time[a] ?? 0) - (time[b] ?? 0) || a - b);
  const rounds = new Map<string, Map<string, number[]>>();
  for (const i of order) {
    const round = String(columns['round']?.[i]);
    const sight = String(columns['sight']?.[i]);
    const sights = rounds.get(round) ?? new Map<string, number[]>();
    rounds.set(round, sights);
    sights.set(sight, [...(sights.get(sight) ?? []), i]);
  }
  return rounds;
}
