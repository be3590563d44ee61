import { logColumns } from '../columns/log-columns.js';
import type { CellValue, LogColumn } from '../columns/column.js';
import { CellReader } from '../csv/read-cell.js';
import { checkRow, type RowFinding } from '../table/check-row.js';
import { RowBuffer } from '../table/row-buffer.js';
import { entryColumn, entryName } from './entry-names.js';
import type { RowValues } from './row-store.js';

/** Why an entry, or the reading as a whole, cannot be taken, or is worth a look. */
export interface EntryFinding {
  /** The entry it concerns. */
  readonly name: string;
  readonly refuse: boolean;
  readonly reason: string;
}

/** A reading with entries changed: the values, and what was found; no values when something must be refused. */
export interface AmendedRow {
  readonly row: RowValues | null;
  readonly findings: readonly EntryFinding[];
}

const nameOfKey = new Map(logColumns.map((c) => [c.key, entryName(c)]));
const KEYS = ['line', ...logColumns.flatMap((c) => (c.textKey ? [c.key, c.textKey] : [c.key]))];
const isDisc = (body: CellValue | undefined) => body === 'Sun' || body === 'Moon';

/** Changes entries of readings, each checked as a cell of a file is; a bare number has the unit of its column. */
export class RowAmender {
  private readonly readers = new Map<string, CellReader>();
  private readonly buffer: RowBuffer;

  constructor(readonly own: ReadonlySet<string>) {
    this.buffer = new RowBuffer([...KEYS, ...own]);
  }

  /**
   * @param row the reading as it is; null for a new one
   * @param entries texts by name of entry; an empty one clears the entry
   * @throws RangeError for a name that no entry has
   */
  amend(row: RowValues | null, entries: Readonly<Record<string, string>>): AmendedRow {
    const { buffer } = this;
    buffer.clear();
    for (const [key, value] of Object.entries(row ?? {})) buffer.set(key, value);
    const findings: EntryFinding[] = [];
    for (const [name, text] of Object.entries(entries)) {
      const reason = this.enter(name, text.trim());
      if (reason !== null) findings.push({ name, refuse: true, reason });
    }
    if (findings.length > 0) return { row: null, findings };
    if (row) loosen(buffer, row, entries);
    const found = checkRow(buffer).map(named);
    if (found.some((f) => f.refuse)) return { row: null, findings: found };
    const values = { ...row, ...Object.fromEntries(buffer.keys.map((k) => [k, buffer.get(k)])) };
    return { row: values, findings: found };
  }

  /** Puts one entry into the buffer. Returns why it cannot, or null. */
  private enter(name: string, text: string): string | null {
    const column = entryColumn(name, this.own);
    if (!column) {
      this.buffer.set(name, text === '' ? null : text);
      return null;
    }
    if (text === '') {
      if (column.key === 'round' || column.key === 'sight') return EMPTY_NAME;
      this.set(column, null, null);
      return null;
    }
    const read = this.reader(column).read(text);
    if (!read.ok) return read.reason;
    this.set(column, read.value, read.text);
    return null;
  }

  private set(column: LogColumn, value: CellValue, text: string | null): void {
    this.buffer.set(column.key, value);
    if (column.textKey) this.buffer.set(column.textKey, text);
  }

  private reader(column: LogColumn): CellReader {
    const known = this.readers.get(column.key);
    if (known) return known;
    const made = new CellReader(column, column.unit ?? '');
    this.readers.set(column.key, made);
    return made;
  }
}

const EMPTY_NAME = 'A reading belongs to a round and a sight. Write the name of one, such as 2.';

const named = ({ key, refuse, reason }: RowFinding): EntryFinding => ({
  name: nameOfKey.get(key) ?? key,
  refuse,
  reason,
});

/** Takes back what had followed from entries that are now others, so that it follows anew. */
function loosen(
  buffer: RowBuffer,
  was: RowValues,
  entries: Readonly<Record<string, string>>,
): void {
  const changed = (name: string) => Object.hasOwn(entries, name);
  const byWatch =
    (was['watchMs'] as number) - (was['watchErrorS'] as number) * 1000 === was['utcMs'];
  if (!changed('utc') && (changed('watch') || changed('watchError')))
    if (byWatch && (was['utcText'] ?? null) === null) buffer.set('utcMs', null);
  if (changed('body') && !changed('limb') && !isDisc(was['body']) && isDisc(buffer.get('body')))
    buffer.set('limb', null);
}
