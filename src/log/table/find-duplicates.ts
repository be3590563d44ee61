import type { CellValue } from '../columns/column.js';
import type { CellFinding } from '../report.js';

/** Rows that repeat an earlier one: same time, body, reading, observer and instrument. They stay in the log. */
export function findDuplicates(columns: Record<string, ArrayLike<CellValue>>): CellFinding[] {
  const found: CellFinding[] = [];
  const first = new Map<string, CellValue>();
  const keys = ['utcMs', 'body', 'readingDeg', 'observer', 'instrument'];
  const rows = columns['line']?.length ?? 0;
  for (let i = 0; i < rows; i++) {
    const id = keys.map((k) => columns[k]?.[i]).join('|');
    const line = columns['line']?.[i] as number;
    const earlier = first.get(id);
    if (earlier === undefined) first.set(id, line);
    else
      found.push({
        line,
        column: null,
        head: null,
        text: '',
        reason: `The row repeats line ${String(earlier)}: same time, body, reading, observer and sextant. Both are in the log.`,
      });
  }
  return found;
}
