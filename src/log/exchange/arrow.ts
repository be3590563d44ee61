import { fromArrow } from 'arquero';
import { isBodyName } from '../../core/sky/index.js';
import { EntryError } from '../../core/units/index.js';
import type { CellValue } from '../columns/column.js';
import { logColumns } from '../columns/log-columns.js';
import { derivedKeys } from '../table/reading-row.js';

type Columns = Record<string, ArrayLike<CellValue>>;

/**
 * The columns of a log from Apache Arrow IPC bytes, as `log.toArrowIPC()` makes them: those the log works out are
 * left out, those not there are empty. Arrow carries no comments and no report.
 * @throws EntryError when the table is no sight log, or a value is not of its column's kind
 */
export function columnsFromArrow(bytes: ArrayBuffer | Uint8Array): Columns {
  const table = fromArrow(bytes);
  const derived: readonly string[] = derivedKeys;
  const names = table.columnNames((name) => !derived.includes(name));
  const columns: Record<string, CellValue[]> = Object.fromEntries(
    names.map((name) => [name, Array.from(table.array(name), (v: unknown) => cell(v, name))]),
  );
  for (const key of ['utcMs', 'body', 'readingDeg'])
    if (!columns[key])
      throw new EntryError(
        `The table has no column '${key}': it is no sight log.`,
        names.join(', '),
      );
  const empty = () => new Array<CellValue>(table.numRows()).fill(null);
  columns['line'] ??= empty();
  for (const { key, textKey } of logColumns) {
    columns[key] ??= empty();
    if (textKey) columns[textKey] ??= empty();
  }
  check(columns);
  return columns;
}

function cell(value: unknown, name: string): CellValue {
  if (value === null || value === undefined) return null;
  if (typeof value === 'bigint') return Number(value);
  if (typeof value === 'string' || typeof value === 'boolean') return value;
  if (typeof value === 'number') return Number.isNaN(value) ? null : value;
  throw new EntryError(
    `Column '${name}' holds a ${typeof value}; a sight log holds words and numbers.`,
    String(value),
  );
}

function check(columns: Record<string, CellValue[]>): void {
  columns['accepted'] = (columns['accepted'] ?? []).map((v) => v ?? true);
  columns['limb'] = (columns['limb'] ?? []).map((v) => v ?? 'centre');
  (columns['body'] ?? []).forEach((body, i) => {
    const time = columns['utcMs']?.[i];
    const reading = columns['readingDeg']?.[i];
    if (typeof body !== 'string' || !isBodyName(body))
      throw new EntryError(`Row ${i + 1}: there is no body '${String(body)}'.`, String(body));
    if (typeof time !== 'number' || typeof reading !== 'number')
      throw new EntryError(`Row ${i + 1} lacks its time or its reading.`, String(time));
  });
}
