import { entryColumns, entryName } from '../amend/entry-names.js';
import type { CellValue } from '../columns/column.js';
import { LogReport, type CellFinding, type RefusedRow } from '../report.js';
import { checkRow } from '../table/check-row.js';
import { ColumnBuilder } from '../table/column-builder.js';
import { findDuplicates } from '../table/find-duplicates.js';
import { unguardFormula } from './formulas.js';
import type { HeadCell, LogHead } from './head.js';
import { CellReader, isBareNumber } from './read-cell.js';
import {
  isOrderOpen,
  orderShown,
  yearFirst,
  type DateOrder,
  type OrderEvidence,
} from './date-order.js';
import type { CsvRecord } from './scan-csv.js';

/** A file read: columns by key, comment lines, the heads of the user's own columns, and the report. */
export interface ReadLog {
  readonly columns: Record<string, ArrayLike<CellValue>>;
  readonly preamble: readonly string[];
  readonly ownHeads: ReadonlyMap<string, string>;
  readonly report: LogReport;
}

/** Where a cell goes in the row, and how it is read; null for the date that belongs to a time. */
type CellPlace = {
  readonly value: number;
  readonly text: number;
  readonly reader: CellReader | null;
} | null;

/** Collects rows into columns and findings. */
export class LogReading {
  private readonly refused: RefusedRow[] = [];
  private readonly queries: CellFinding[] = [];
  private readonly places: readonly CellPlace[];
  private readonly columns: ColumnBuilder;
  private rows = 0;
  private commas = 0;
  private evidence: OrderEvidence | undefined;
  /** Heads under which numbers without a unit were refused, how many, and the name with a unit that would do. */
  private readonly bare = new Map<string, { name: string; count: number }>();
  private readonly dateAt: number;
  private readonly timeAt: number;

  constructor(
    private readonly head: LogHead,
    /** The whole text of a record, for those refused. */
    private readonly textOf: (record: CsvRecord) => string,
    private readonly notes: string[],
    /** Cells of the head with those at its end that have no name. */
    private readonly rawWidth: number,
    /** Whether cells may carry the apostrophe that keeps spreadsheets from running them. */
    private readonly isGuarded = true,
    /** How dates that do not begin with the year are to be read. */
    private dates?: DateOrder,
    /** Looks through all dates of the file for their order, where it was not told; without any they are refused. */
    private readonly lookForOrder: (dateAt: number) => OrderEvidence = () => ({}),
  ) {
    this.columns = new ColumnBuilder(head.cells.flatMap((c) => (c.kind === 'own' ? [c.key] : [])));
    this.places = head.cells.map((c) => this.placeOf(c));
    this.dateAt = head.cells.findIndex((c) => c.kind === 'date');
    this.timeAt = head.cells.findIndex(
      (c) => c.kind === 'known' && (c.column.key === 'utcMs' || c.column.key === 'watchMs'),
    );
  }

  private placeOf(cell: HeadCell): CellPlace {
    const { row } = this.columns;
    if (cell.kind === 'own') return { value: row.placeOf(cell.key), text: -1, reader: null };
    if (cell.kind === 'date') return null;
    const { key, textKey } = cell.column;
    return {
      value: row.placeOf(key),
      text: textKey ? row.placeOf(textKey) : -1,
      reader: new CellReader(cell.column, cell.unit, cell.prefix),
    };
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
    const { row } = this.columns;
    row.clear();
    row.set('line', record.line);
    const findings: CellFinding[] = [];
    for (let i = 0; i < width; i++) {
      const amiss = this.readCell(i, cells);
      if (amiss) findings.push(this.finding(record, amiss.at, amiss.reason));
    }
    if (findings.length === 0)
      for (const found of checkRow(row)) {
        const at = this.head.cells.findIndex(
          (c) => c.kind === 'known' && c.column.key === found.key,
        );
        const made = this.finding(record, at < 0 ? null : at, found.reason);
        (found.refuse ? findings : this.queries).push(made);
      }
    if (findings.length > 0) this.refuse(record, findings, this.entriesOf(cells));
    else this.columns.add();
  }

  finish(preamble: readonly string[], refusedBefore: readonly RefusedRow[] = []): ReadLog {
    if (this.commas > 0)
      this.notes.push(`A comma was read as the decimal point in ${this.commas} cells.`);
    if (this.evidence) this.notes.push(orderNote(this.evidence));
    const unitless = [...this.bare].filter(([, { count }]) => count > this.rows / 2);
    if (unitless.length > 0) this.notes.push(bareNote(unitless));
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
      report: new LogReport(
        this.rows + refusedBefore.length,
        [...refusedBefore, ...this.refused],
        this.queries,
        this.notes,
      ),
    };
  }

  /** Puts what the cell holds into the row. Returns why it cannot and which cell is to blame, or null. */
  private readCell(
    i: number,
    cells: readonly string[],
  ): { readonly reason: string; readonly at: number } | null {
    const place = this.places[i] as CellPlace;
    const raw = cells[i] ?? '';
    let text = this.isGuarded ? unguardFormula(raw) : raw;
    if (text === '' || !place) return null;
    const { values } = this.columns.row;
    if (!place.reader) {
      values[place.value] = text;
      return null;
    }
    if (i === this.timeAt) text = this.timeText(text, cells);
    const read = place.reader.read(text);
    if (!read.ok) this.noteBare(i, text);
    if (!read.ok) return { reason: read.reason, at: this.isDateAmiss(i, text) ? this.dateAt : i };
    if (read.comma) this.commas += 1;
    values[place.value] = read.value;
    if (place.text >= 0) values[place.text] = read.text;
    return null;
  }

  /** Keeps the head of a column whose bare numbers lack a unit that the head could name. */
  private noteBare(i: number, text: string): void {
    const cell = this.head.cells[i];
    if (cell?.kind !== 'known' || cell.unit || !cell.column.unit || !isBareNumber(text)) return;
    const name = `${cell.column.head} (${cell.column.unit})`;
    this.bare.set(cell.text, { name, count: (this.bare.get(cell.text)?.count ?? 0) + 1 });
  }

  /** The time with the date of its column, the year first. */
  private timeText(text: string, cells: readonly string[]): string {
    const whole = this.dateAt >= 0 ? `${cells[this.dateAt] ?? ''} ${text}`.trim() : text;
    if (!this.dates && !this.evidence && isOrderOpen(whole)) {
      this.evidence = this.lookForOrder(this.dateAt >= 0 ? this.dateAt : this.timeAt);
      this.dates = orderShown(this.evidence);
    }
    return this.dates ? yearFirst(whole, this.dates) : whole;
  }

  /** Whether it is the date in its own column that makes this time unreadable. */
  private isDateAmiss(i: number, text: string): boolean {
    return i === this.timeAt && this.dateAt >= 0 && isOrderOpen(text);
  }

  /** The texts of a row under the names of entries, each as an amendment would give it. */
  private entriesOf(cells: readonly string[]): Record<string, string> {
    const entries: Record<string, string> = {};
    this.head.cells.forEach((cell, i) => {
      const raw = cells[i] ?? '';
      const text = this.isGuarded ? unguardFormula(raw) : raw;
      if (text === '' || cell.kind === 'date') return;
      if (cell.kind === 'own') entries[cell.key] = text;
      else if (entryColumns.has(entryName(cell.column)))
        entries[entryName(cell.column)] =
          i === this.timeAt
            ? this.timeText(text, cells)
            : (this.places[i]?.reader?.withUnit(text) ?? text);
    });
    return entries;
  }

  private refuse(
    record: CsvRecord,
    findings: readonly CellFinding[],
    entries?: Readonly<Record<string, string>>,
  ): void {
    this.refused.push({
      line: record.line,
      text: this.textOf(record),
      findings,
      ...(entries ? { entries } : {}),
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

/** What the report says about the order of dates. */
function orderNote(evidence: OrderEvidence): string {
  const [day, month] = [evidence['day first'], evidence['month first']];
  const at = ({ line, text }: { line: number; text: string }) => `line ${line} (${text.trim()})`;
  if (day && month)
    return `Dates stand in both orders: ${at(day)} is day first, ${at(month)} month first. Write them all with the year first, 2027-05-13.`;
  const shown = day ?? month;
  if (shown)
    return `Dates were read ${day ? 'day' : 'month'} first, as ${at(shown)} can be read no other way.`;
  return "If dates are written 13/05/2027 throughout, say so: SightLog.fromCsv(text, { dates: 'day first' }); for 05/13/2027 'month first'.";
}

/** How to give whole columns their unit. */
function bareNote(
  bare: readonly (readonly [head: string, to: { readonly name: string }])[],
): string {
  const heads = bare.map(([head]) => head).join(', ');
  const told = bare.map(([head, { name }]) => `'${head}': '${name}'`).join(', ');
  return `Numbers without a unit stand under ${heads}. Say the unit for the whole column, as in SightLog.fromCsv(text, { columns: { ${told} } }).`;
}
