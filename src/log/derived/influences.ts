import { rhumbBetweenKernel } from '../../core/line/rhumb-kernel.js';
import type { CellValue } from '../columns/column.js';
import { fixableRounds, fixOrNull } from './round-fixes.js';

/**
 * How far the fix of the round moves, in nautical miles, when the sight of the reading is left out: the fix is worked
 * anew without it. NaN where the round has no fix or too few sights to lose one.
 */
export function influences(
  columns: Record<string, ArrayLike<CellValue>>,
  rows: number,
): Float64Array {
  const out = new Float64Array(rows).fill(NaN);
  for (const round of fixableRounds(columns, rows)) {
    const whole = fixOrNull(round.observations)?.position;
    if (!whole) continue;
    round.rows.forEach((list, s) => {
      const without = fixOrNull(round.observations.filter((_, k) => k !== s))?.position;
      if (!without) return;
      const { latDeg, lonDeg } = whole;
      const moved = rhumbBetweenKernel(latDeg, lonDeg, without.latDeg, without.lonDeg);
      for (const i of list) out[i] = moved.distanceM / 1852;
    });
  }
  return out;
}
