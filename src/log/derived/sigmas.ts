import { observedAltitude } from '../../core/sextant/index.js';
import { OutOfRangeError } from '../../core/units/index.js';
import type { CellValue } from '../columns/column.js';
import { rowAt } from './rows.js';
import { toSight } from './to-sight.js';

/** Standard deviation of each reading's Ho, minutes of arc, from its working; NaN where Ho cannot be worked. */
export function sigmas(columns: Record<string, ArrayLike<CellValue>>, rows: number): Float64Array {
  return Float64Array.from({ length: rows }, (_, i) => {
    try {
      return observedAltitude(toSight([rowAt(columns, i)])).uncertainty.sigma.arcminutes;
    } catch (error) {
      if (error instanceof OutOfRangeError) return NaN;
      throw error;
    }
  });
}
