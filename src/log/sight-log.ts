import { BitSet, ColumnTable } from 'arquero';
import { observedAltitude, type Sight } from '../core/sextant/index.js';
import type { Angle } from '../core/units/index.js';
import type { Working } from '../core/working/index.js';
import { Amendments } from './amend/amendments.js';
import { ColumnStore } from './amend/column-store.js';
import type { CellValue } from './columns/column.js';
import { readCsv, type CsvReading } from './csv/read-csv.js';
import { guardFormula } from './csv/formulas.js';
import { writeCsv, type CsvOptions } from './csv/write-csv.js';
import { logTable, type LogTableOptions } from './display/log-table.js';
import { htmlTable, plainTable } from './display/plain-table.js';
import { derivedColumns, inputKeys } from './derived/derived-columns.js';
import { byRoundAndSight, rowAt } from './derived/rows.js';
import { toSight } from './derived/to-sight.js';
import { columnsFromArrow } from './exchange/arrow.js';
import { logFromJson, logToJson } from './exchange/json.js';
import type { Track } from './exchange/track.js';
import type { LogReport } from './report.js';
import { ArqueroTable, type CreateOptions, type VerbArgs } from './table/arquero-verbs.js';
import { groupReadings } from './table/group-readings.js';
import { emptyContext, type LogContext } from './table/log-context.js';
import { LazyColumn } from './table/lazy-column.js';
import {
  arqueroTable,
  isDerived,
  plainColumn,
  refuseDerived,
  type Columns,
  noSuchRound,
  type Names,
  type Rest,
} from './table/log-parts.js';
import { derivedKeys, type DerivedRow, type ReadingRow } from './table/reading-row.js';

/** A round: sights taken together for one fix. */
export interface LogRound {
  readonly name: string;
  /** The rows of the round, rejected ones too. */
  readonly log: SightLog;
  /** The sights of readings that are used, in order of time. */
  readonly sights: readonly Sight[];
}

/** A row with what the log works out from it. */
export type LogRow = ReadingRow & DerivedRow;

/** Columns without which a table is no sight log. */
const NECESSARY = ['utcMs', 'body', 'limb', 'readingDeg', 'round', 'sight', 'accepted'] as const;

/**
 * A sight log: an arquero table with one row a reading, immutable. Every arquero verb works on it, as in
 * `log.filter(d => d.body === 'Sun').orderby('residualArcmin')`, and gives a sight log back as long as the columns that
 * make one are there, else a plain table. The columns are those of `ReadingRow`; those of `DerivedRow` (`hoDeg`,
 * `residualArcmin` …) are worked out when first looked at, over all rows that back the table.
 */
export class SightLog extends ArqueroTable {
  private context: LogContext = emptyContext;
  private stored: Columns | undefined;

  /**
   * Reads a log from CSV text or from the bytes of a file. What was found on the way is in `log.report`. Dates begin with the year
   * (2027-05-13) or name the month (13 May 2027); `{ dates: 'day first' }` reads 05/06/2027 as 5 June, `'month first'` as 6 May, and without
   * either a date such as 13/05/2027 shows the order of all. `{ columns: { By: 'observer' } }` says what a head of the file is.
   * @throws EntryError when the head is missing or lacks what a sight log must have, or `columns` names what is not there
   */
  static fromCsv(input: string | Uint8Array, options: CsvReading = {}): SightLog {
    const { columns, ...rest } = readCsv(input, options);
    return SightLog.fromColumns(columns, { ...rest, track: null });
  }

  /**
   * Reads a log from its own JSON, checked as CSV is.
   * @throws EntryError when the text is no JSON or no sight log
   */
  static fromJson(text: string): SightLog {
    const { columns, ...rest } = logFromJson(text);
    return SightLog.fromColumns(columns, { ...rest, track: null });
  }
  /**
   * Reads a log from Apache Arrow IPC bytes, as `toArrowIPC()` writes them.
   * @throws EntryError when the table is no sight log
   */
  static fromArrow(bytes: ArrayBuffer | Uint8Array): SightLog {
    return SightLog.fromColumns(columnsFromArrow(bytes));
  }

  /** From columns by key, each cell already checked; rounds and sights that have no name are formed by rule. */
  static fromColumns(columns: Columns, context: LogContext = emptyContext): SightLog {
    const { round, sight, notes } = groupReadings(columns);
    const report = context.report.withNotes(notes);
    return SightLog.make({ ...columns, round, sight }, { ...context, report });
  }

  private static make(columns: Columns, context: LogContext, names?: Names): SightLog {
    const stored = (names ?? Object.keys(columns)).filter((n) => !isDerived(n));
    const all = { ...columns, ...derivedColumns(columns, context.track) };
    const log = new SightLog(all as never, [...stored, ...derivedKeys]);
    log.context = context;
    return log;
  }

  /** What reading the file found: refused rows with their text, rows to look at, what was taken for granted. */
  get report(): LogReport {
    return this.context.report;
  }
  /** The known track that residuals are taken against, or null. */
  get track(): Track | null {
    return this.context.track;
  }
  /** Heads of the user's own columns by key. */
  get ownHeads(): ReadonlyMap<string, string> {
    return this.context.ownHeads;
  }
  /** Comment lines of the file, with their #. */
  get preamble(): Names {
    return this.context.preamble;
  }

  /** The same log with residuals against a known track. */
  withTrack(track: Track | null): SightLog {
    const rest = { filter: this.mask(), groups: this.groups(), order: this.comparator() };
    return this.rebuild(this.storedColumns(), this.columnNames(), rest, { ...this.context, track });
  }

  /** All rows in the order of the table, as typed objects; derived columns are worked out when looked at. */
  rows(): LogRow[] {
    return Array.from(this.indices(), (i) => this.rowAt(i));
  }
  /** The rows without derived columns: nothing is worked out. */
  readings(): ReadingRow[] {
    const columns = this.storedColumns();
    return Array.from(this.indices(), (i) => rowAt(columns, i));
  }
  /** Readings that are used. */
  accepted(): SightLog {
    return this.keep((row) => this.at('accepted', row) === true);
  }
  /** Readings that are not used, each with its reason. */
  rejected(): SightLog {
    return this.keep((row) => this.at('accepted', row) === false);
  }
  /**
   * The log with these readings not used, and why. They stay in the log.
   * @param which true for the rows meant
   */
  reject(which: (row: LogRow) => boolean, reason: string): SightLog {
    return this.revise((row) => (which(row) ? { accepted: false, reason } : {}));
  }
  /** The log with these readings used again. */
  accept(which: (row: LogRow) => boolean): SightLog {
    return this.revise((row) => (which(row) ? { accepted: true, reason: null } : {}));
  }

  /**
   * The log with other values in some cells, and what is worked out from them anew. What was written stays in the text
   * columns. Quicker than `derive` with a function, which arquero feeds with every column.
   * @param of the new values of a row by key; nothing where it stays
   */
  revise(of: (row: LogRow) => Partial<ReadingRow>): SightLog {
    const columns = { ...this.storedColumns() };
    const revised: Record<string, CellValue[]> = {};
    for (const i of this.indices())
      for (const [key, value] of Object.entries(of(this.rowAt(i)))) {
        refuseDerived([key]);
        (revised[key] ??= Array.from(columns[key] ?? []))[i] = value;
      }
    const changed = { ...columns, ...revised };
    const rest = { filter: this.mask(), groups: this.groups(), order: this.comparator() };
    return this.rebuild(changed, Object.keys(changed), rest, this.context);
  }

  /**
   * The log as amended in the book, entries checked as cells of a file are. Readings go by number, from 1 as read (`editLog` shows it):
   * `log.amend((book) => { book.correct(12, { reading: '34°17.6′' }); book.reject(15, 'horizon hazy'); })`
   * @throws EntryError or RangeError at the first amendment that cannot be made; then none is
   */
  amend(enter: (book: Amendments) => void): SightLog {
    const shown = Array.from(this.indices());
    const store = new ColumnStore(this.storedColumns(), this.totalRows(), shown);
    enter(new Amendments(store, new Set(this.context.ownHeads.keys())));
    const { added, columns } = store.finish();
    const filter = this.mask() && new BitSet(this.totalRows() + added);
    if (filter) for (const number of store.numbers()) filter.set(number - 1);
    const rest = { filter, groups: added > 0 ? null : this.groups(), order: this.comparator() };
    return this.rebuild(columns, Object.keys(columns), rest, this.context);
  }

  /** The names of the rounds in order of time. */
  roundNames(): string[] {
    return [...byRoundAndSight(this.storedColumns(), this.indices()).keys()];
  }
  /** Every round with its rows and its sights, in order of time. */
  rounds(): LogRound[] {
    return this.roundNames().map((name) => {
      const log = this.keep((row) => this.at('round', row) === name);
      return { name, log, sights: log.sights() };
    });
  }
  /**
   * The sights of a round that are used, in order of time, ready for `fix`.
   * @throws RangeError naming the rounds there are
   */
  round(name: string): readonly Sight[] {
    return this.roundLog(name).sights();
  }
  /** The rows of a round, rejected ones too. @throws RangeError naming the rounds there are */
  roundLog(name: string): SightLog {
    const log = this.keep((row) => this.at('round', row) === name);
    if (log.numRows() > 0) return log;
    throw new RangeError(noSuchRound(name, this.roundNames()));
  }
  /** One sight for each round and sight name, from its used readings, in order of time. */
  sights(): readonly Sight[] {
    const columns = this.storedColumns();
    const used = this.indices().filter((i) => columns['accepted']?.[i] === true);
    const rounds = [...byRoundAndSight(columns, used).values()];
    return rounds.flatMap((sights) =>
      [...sights.values()].map((rows) => toSight(rows.map((i) => rowAt(columns, i)))),
    );
  }
  /** One row of the table as a sight of its own. @param row place in the table as it is ordered and filtered, from 0 */
  sightAt(row: number): Sight {
    const i = this.indices()[row];
    if (i === undefined)
      throw new RangeError(`the log has rows 0 to ${this.numRows() - 1}, and no row ${row}`);
    return toSight([rowAt(this.storedColumns(), i)]);
  }
  /** The working from the reading of one row to its observed altitude. */
  working(row: number): Working<Angle> {
    return observedAltitude(this.sightAt(row));
  }

  /** CSV in our own format, formulas made harmless, refused rows as comments at the end. */
  toCsv(options?: CsvOptions): string {
    const { ownHeads, preamble, report } = this.context;
    return writeCsv(this.readings() as never, ownHeads, preamble, report, options);
  }

  /** arquero makes every new table through this. @internal */
  override create(options: CreateOptions): this {
    const made = ColumnTable.prototype.create.call(this, options) as unknown as SightLog;
    const data = made.data() as unknown as Columns;
    const rest = { filter: made.mask(), groups: made.groups(), order: made.comparator() };
    if (NECESSARY.some((key) => data[key] === undefined))
      return arqueroTable(made) as unknown as this;
    const old = this.data() as unknown as Columns;
    const same =
      inputKeys.every((key) => data[key] === old[key]) &&
      derivedKeys.every((key) => (data[key] as unknown) instanceof LazyColumn);
    if (!same) return this.rebuild(data, made.columnNames(), rest, this.context) as this;
    made.context = this.context;
    return made as this;
  }

  /** @throws RangeError on a column that the log works out itself */
  override derive(...args: VerbArgs<'derive'>): this {
    refuseDerived(Object.keys(args[0]));
    return super.derive(...args);
  }
  /** @throws RangeError on a column that the log works out itself */
  override assign(...args: VerbArgs<'assign'>): this {
    refuseDerived(
      args.flatMap((t) => (t instanceof ColumnTable ? t.columnNames() : Object.keys(t))),
    );
    return super.assign(...args);
  }
  /** A copy with only the rows shown, in their order; what the log works out is worked out anew. */
  override reify(...args: VerbArgs<'reify'>): this {
    const plain = arqueroTable(this, (name) => !isDerived(name)).reify(...args);
    const rest = { groups: plain.groups() };
    return this.rebuild(plain.data() as never, plain.columnNames(), rest, this.context) as this;
  }
  /** arquero's CSV, with formulas made harmless; `toCsv` writes the sight log's own format. */
  override toCSV(...args: Parameters<ColumnTable['toCSV']>): string {
    const guarded = this.columnNames().map((name) => [
      name,
      Array.from(this.array(name), (v: unknown) => (typeof v === 'string' ? guardFormula(v) : v)),
    ]);
    return new ColumnTable(Object.fromEntries(guarded)).toCSV(...args);
  }

  private rebuild(columns: Columns, names: Names, rest: Rest, context: LogContext): SightLog {
    const stored = names.filter((n) => !isDerived(n));
    const plain: Columns = Object.fromEntries(stored.map((n) => [n, plainColumn(columns[n])]));
    const log = new SightLog(
      { ...plain, ...derivedColumns(plain, context.track) } as never,
      [...stored, ...derivedKeys],
      rest.filter as never,
      rest.groups as never,
      rest.order as never,
      this.params() as never,
    );
    log.context = context;
    return log;
  }
  private keep(test: (row: number) => boolean): SightLog {
    const filter = new BitSet(this.totalRows());
    for (const i of this.indices()) if (test(i)) filter.set(i);
    return this.create({ filter });
  }
  /** The log as JSON text: readings as they were written, refused rows too. `SightLog.fromJson` reads it. */
  toJson(): string {
    const { ownHeads, preamble, report } = this.context;
    return JSON.stringify(logToJson(this.readings() as never, ownHeads, preamble, report), null, 1);
  }

  /** The table in plain text and trade notation. @param most rows shown, 20 unless told */
  toText(most = 20, options: LogTableOptions = {}): string {
    return plainTable(logTable(this, { limit: most, ...options }), most);
  }
  /** A true table in HTML. @param most rows shown, 50 unless told */
  toHtml(most = 50, options: LogTableOptions = {}): string {
    return htmlTable(logTable(this, { limit: most, ...options }), most);
  }
  override toString(): string {
    return this.toText();
  }

  private at(key: string, row: number): CellValue {
    return (this.column(key)?.at(row) ?? null) as CellValue;
  }
  private rowAt(i: number): LogRow {
    const row = rowAt(this.storedColumns(), i);
    for (const key of derivedKeys)
      Object.defineProperty(row, key, { get: () => this.at(key, i), enumerable: true });
    return row as LogRow;
  }
  private storedColumns(): Columns {
    const data = this.data() as unknown as Columns;
    this.stored ??= Object.fromEntries(Object.entries(data).filter(([name]) => !isDerived(name)));
    return this.stored;
  }
}
