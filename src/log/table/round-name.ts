import { isSolarSystem, type BodyName } from '../../core/sky/index.js';
import type { CellValue } from '../columns/column.js';

/**
 * A name for the readings of one stretch of time: date (UTC) and part of the day by the local mean time at the
 * longitude of the first reading that has one, else by UTC: `2027-05-14 dawn`. Stars make dawn or dusk,
 * the Sun forenoon, noon (within half an hour) or afternoon.
 */
export function roundName(
  columns: Record<string, ArrayLike<CellValue>>,
  rows: readonly number[],
): string {
  const middle = rows[Math.floor(rows.length / 2)] ?? 0;
  const ms = columns['utcMs']?.[middle] as number;
  const located = rows.find((i) => typeof columns['lonDeg']?.[i] === 'number');
  const lonDeg = located === undefined ? 0 : (columns['lonDeg']?.[located] as number);
  const hour = (((ms / 3_600_000 + lonDeg / 15) % 24) + 24) % 24;
  const bodies = new Set(rows.map((i) => columns['body']?.[i] as BodyName));
  const stars = [...bodies].some((b) => !isSolarSystem(b) || (b !== 'Sun' && b !== 'Moon'));
  const date = new Date(ms).toISOString().slice(0, 10);
  return `${date} ${stars ? nightPart(hour) : dayPart(hour)}`;
}

function nightPart(hour: number): string {
  if (hour >= 3 && hour < 9) return 'dawn';
  if (hour >= 15 && hour < 21) return 'dusk';
  return hour >= 9 && hour < 15 ? 'day' : 'night';
}

function dayPart(hour: number): string {
  if (hour >= 4 && hour < 11.5) return 'forenoon';
  if (hour >= 11.5 && hour <= 12.5) return 'noon';
  return hour > 12.5 && hour < 20 ? 'afternoon' : 'night';
}
