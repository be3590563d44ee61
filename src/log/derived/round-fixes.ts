import type { CellValue } from '../columns/column.js';
type Columns = Record<string, ArrayLike<CellValue>>;
/** Where the vessel was at each reading by the fix of its round. */
export function roundPlaces(
  _columns: Columns,
  _rows: number,
): ReadonlyMap<number, { latDeg: number; lonDeg: number }> {
  return new Map();
}
