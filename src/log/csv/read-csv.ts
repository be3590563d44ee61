import { EntryError } from '../../core/units/index.js';
import type { CellValue } from '../columns/column.js';
import { LogReport, type CellFinding, type RefusedRow } from '../report.js';
import { ColumnBuilder } from '../table/column-builder.js';
import { checkRow } from '../table/check-row.js';
import { findDuplicates } from '../table/find-duplicates.js';
import { decodeText } from './decode.js';
import { unguardFormula } from './formulas.js';
import { headsKnown, readHead, type HeadCell, type LogHead } from './head.js';
import { CellReader } from './read-cell.js';
import { afterLineEnd, lineEnd, scanCsv, type CsvRecord } from './scan-csv.js';

/** A file read: columns by key, comment lines, the heads of the user's own columns, and the report. */
export interface ReadLog {
  readonly columns: Record<string, ArrayLike<CellValue>>;
  readonly preamble: readonly string[];
  readonly ownHeads: ReadonlyMap<string, string>;
  readonly report: LogReport;
}

/**
 * Reads a sight log from CSV. The delimiter (comma, semicolon or tab) is found from the head; decimal commas,
 * byte-order mark, CRLF and blank lines are taken; lines that start with # are comments and are kept. A row is
 * taken whole or refused whole; refused rows are kept in the report with every finding.
 * @throws EntryError when there is no head or it lacks what a sight log must have
 */
export function readCsv(input: string | Uint8Array): ReadLog {
  const { text, notes } = decodeText(input);
  const top = readTop(text);
  const named = top.heads.findLastIndex((h) => h !== '') + 1;
  const head = readHead(top.heads.slice(0, named), top.line);
  const reading = new LogReading(head, text, [...notes, ...head.notes], top.heads.length);
  for (const record of scanCsv(text, top.delimiter, top.next, top.nextLine, top.heads.length)) {
    const first = text.charCodeAt(record.from);
    if (first === 35) top.preamble.push(text.slice(record.from, record.to));
    else reading.take(record);
  }
  return reading.finish(top.preamble);
}

interface Top {
  readonly preamble: string[];
  readonly heads: readonly string[];
  readonly line: number;
  readonly delimiter: string;
  readonly next: number;
  readonly nextLine: number;
}

/** Comment lines, a `sep=` line, and the head. */
function readTop(text: string): Top {
  const preamble: string[] = [];
  let told: string | undefined;
  let line = 0;
  for (let at = 0; at < text.length;) {
    line += 1;
    const end = lineEnd(text, at);
    const row = text.slice(at, end);
    const next = afterLineEnd(text, end);
    const separator = /^sep=(.)$/.exec(row.trim());
    if (row.startsWith('#')) preamble.push(row);
    else if (separator) told = separator[1];
    else if (row.trim() !== '') {
      const delimiter = told ?? bestDelimiter(row);
      const record = scanCsv(text.slice(0, end), delimiter, at, line).next().value as CsvRecord;
      if (record.damage)
        throw new EntryError(`Line ${line}, the head: ${record.damage.reason}`, row);
      return { preamble, heads: record.cells, line, delimiter, next, nextLine: line + 1 };
    }
    at = next;
  }
  throw new EntryError(
    'There is no head: the first line that is not a comment names the columns, such as UTC, body, limb, reading.',
    text.slice(0, 80),
  );
}

function bestDelimiter(row: string): string {
  const known = (delimiter: string) => {
    const record = scanCsv(row, delimiter).next().value as CsvRecord | undefined;
    return headsKnown(record?.cells ?? []);
  };
  return [',', ';', '\t', '|'].reduce((best, d) => (known(d) > known(best) ? d : best));
}

/** Collects rows into columns and findings. */
class LogReading {
  private readonly refused: RefusedRow[] = [];
  private readonly queries: CellFinding[] = [];
  private readonly readers: (CellReader | null)[];
  private readonly columns: ColumnBuilder;
  private rows = 0;
  private commas = 0;
  private readonly dateAt: number;
  private readonly timeAt: number;

  constructor(
    private readonly head: LogHead,
    private readonly text: string,
    private readonly notes: string[],
    /** Cells of the head with those at its end that have no name. */
    private readonly rawWidth: number,
  ) {
    this.readers = head.cells.map((c) =>
      c.kind === 'known' ? new CellReader(c.column, c.unit, c.prefix) : null,
    );
    this.columns = new ColumnBuilder(head.cells.flatMap((c) => (c.kind === 'own' ? [c.key] : [])));
    this.dateAt = head.cells.findIndex((c) => c.kind === 'date');
    this.timeAt = head.cells.findIndex(
      (c) => c.kind === 'known' && (c.column.key === 'utcMs' || c.column.key === 'watchMs'),
    );
  }

  take(record: CsvRecord): void {
    this.rows += 1;
    const { cells } = record;
    const width = this.head.cells.length;
    const wide = cells.length > this.rawWidth || cells.slice(width).some((c) => c !== '');
    if (record.damage) {
      const { cell, reason } = record.damage;
      return this.refuse(record, [this.finding(record, cell, reason)]);
    }
    if (wide || cells.length < width) return this.refuse(record, [this.countFinding(record)]);
    const row = new Map<string, CellValue>([['line', record.line]]);
    const findings: CellFinding[] = [];
    for (let i = 0; i < width; i++) {
      const reason = this.readCell(i, cells, row);
      if (reason !== null) findings.push(this.finding(record, i, reason));
    }
    if (findings.length === 0)
      for (const found of checkRow(row)) {
        const at = this.head.cells.findIndex(
          (c) => c.kind === 'known' && c.column.key === found.key,
        );
        const made = this.finding(record, at < 0 ? null : at, found.reason);
        (found.refuse ? findings : this.queries).push(made);
      }
    if (findings.length > 0) this.refuse(record, findings);
    else this.columns.add(row);
  }

  finish(preamble: readonly string[]): ReadLog {
    if (this.commas > 0)
      this.notes.push(`A comma was read as the decimal point in ${this.commas} cells.`);
    const columns = this.columns.finish();
    this.queries.push(...findDuplicates(columns));
    this.queries.sort((a, b) => a.line - b.line);
    const own = this.head.cells.flatMap((c) =>
      c.kind === 'own' ? [[c.key, c.text] as const] : [],
    );
    return {
      columns,
      preamble,
      ownHeads: new Map(own),
      report: new LogReport(this.rows, this.refused, this.queries, this.notes),
    };
  }

  /** Puts what the cell holds into the row. Returns why it cannot, or null. */
  private readCell(
    i: number,
    cells: readonly string[],
    row: Map<string, CellValue>,
  ): string | null {
    const cell = this.head.cells[i] as HeadCell;
    let text = unguardFormula(cells[i] ?? '');
    if (cell.kind === 'own') row.set(cell.key, text === '' ? null : text);
    if (cell.kind !== 'known') return null;
    if (i === this.timeAt && this.dateAt >= 0 && text !== '')
      text = `${cells[this.dateAt] ?? ''} ${text}`.trim();
    if (text === '') return null;
    const read = this.readers[i]?.read(text);
    if (!read?.ok) return read?.reason ?? null;
    if (read.comma) this.commas += 1;
    row.set(cell.column.key, read.value);
    if (cell.column.textKey) row.set(cell.column.textKey, read.text);
    return null;
  }

  private refuse(record: CsvRecord, findings: readonly CellFinding[]): void {
    this.refused.push({
      line: record.line,
      text: this.text.slice(record.from, record.to),
      findings,
    });
  }

  private finding(record: CsvRecord, cell: number | null, reason: string): CellFinding {
    return {
      line: record.line,
      column: cell === null ? null : cell + 1,
      head: cell === null ? null : (this.head.cells[cell]?.text ?? null),
      text: cell === null ? '' : (record.cells[cell] ?? ''),
      reason,
    };
  }

  private countFinding(record: CsvRecord): CellFinding {
    const [found, wanted] = [record.cells.length, this.head.cells.length];
    const few = found < wanted;
    const cause = few
      ? `The first one missing is '${this.head.cells[found]?.text}'.`
      : record.cells.some((c, i) => /\d$/.test(c) && /^\d/.test(record.cells[i + 1] ?? ''))
        ? 'Is there a decimal comma in a cell? Put such a cell in quotation marks, or separate cells with semicolons.'
        : 'Is there a comma in a remark? Put that cell in quotation marks.';
    const reason = `The row has ${found} cells and the head ${wanted}. ${cause}`;
    return this.finding(record, few ? found - 1 : wanted, reason);
  }
}
