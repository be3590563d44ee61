import type { CellValue } from '../columns/column.js';
import type { CellFinding } from '../report.js';

const SAME = ['body', 'readingDeg', 'observer', 'instrument'];

/** Rows that repeat an earlier one: same time, body, reading, observer and instrument. They stay in the log. */
export function findDuplicates(columns: Record<string, ArrayLike<CellValue>>): CellFinding[] {
  const found: CellFinding[] = [];
  const byTime = new Map<CellValue, number[]>();
  const times = columns['utcMs'] ?? [];
  const compared = SAME.map((key) => columns[key] ?? []);
  for (let i = 0; i < times.length; i++) {
    const time = times[i] as CellValue;
    const others = byTime.get(time);
    if (!others) {
      byTime.set(time, [i]);
      continue;
    }
    const earlier = others.find((j) => compared.every((column) => column[i] === column[j]));
    if (earlier === undefined) others.push(i);
    else
      found.push({
        line: columns['line']?.[i] as number,
        column: null,
        head: null,
        text: '',
        reason: `The row repeats line ${String(columns['line']?.[earlier])}: same time, body, reading, observer and sextant. Both are in the log.`,
      });
  }
  return found;
}
