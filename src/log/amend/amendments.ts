import { EntryError } from '../../core/units/index.js';
import { cellText } from '../csv/write-csv.js';
import { RowAmender, type EntryFinding } from './amend-row.js';
import type { Amendment, Corrected } from './amendment.js';
import { entryColumn, type EntryName } from './entry-names.js';
import { numberOf, readingLabel } from './labels.js';
import { freeSight, placeReading, unlike } from './place-reading.js';
import type { RowStore, RowValues } from './row-store.js';

/** A reading by its number (from 1, in the order in which the log was read), or by its label `12 Sun 09:42:17`, which is checked. */
export type Which = number | string;
/** The right text of an entry, or with it what stood there before, which is checked. */
export type Correction = string | Corrected;
/** Entries by name, those of the user's own columns by key. */
export type Entries<T> = Readonly<Partial<Record<EntryName, T>> & Record<string, T | undefined>>;

/** What stands in an entry, as it was written. */
export function entryText(name: string, row: RowValues, own: ReadonlySet<string>): string {
  const column = entryColumn(name, own);
  return column ? cellText(column, row, false) : String(row[name] ?? '');
}

/**
 * The book in which a log is amended, one line an amendment. Texts are what a navigator writes and are kept as written;
 * every entry is checked as a cell of a file is. Nothing is struck out: a reading not wanted is rejected and stays.
 */
export class Amendments {
  private readonly amender: RowAmender;

  constructor(
    private readonly store: RowStore,
    private readonly own: ReadonlySet<string>,
  ) {
    this.amender = new RowAmender(own);
  }

  /**
   * Corrects entries of a reading: `book.correct('12 Sun 09:42:17', { reading: { was: '34°71.6′', is: '34°17.6′' } })`,
   * or without the check `book.correct(12, { reading: '34°17.6′' })`. An empty text clears an entry.
   * @throws EntryError naming what is wrong with an entry, or that something else stood there; RangeError for a reading or entry that is not there
   */
  correct(which: Which, entries: Entries<Correction>): void {
    const number = numberOf(which, this.store);
    const row = this.store.row(number) as RowValues;
    const texts: Record<string, string> = {};
    for (const [name, given] of Object.entries(entries)) {
      if (given === undefined) continue;
      const correction: Corrected | null = typeof given === 'string' ? null : given;
      const stands = entryText(name, row, this.own);
      if (correction && correction.was !== stands)
        throw new EntryError(
          `Reading ${readingLabel(number, row)} has ${name} '${stands}', not '${correction.was}': the log is not the one this was written for.`,
          correction.was,
        );
      texts[name] = typeof given === 'string' ? given : given.is;
    }
    this.store.put(number, this.take(`Reading ${number}`, row, texts));
  }

  /**
   * Adds a reading at the end of the log: `book.add({ utc: '2027-05-14 05:24:00', body: 'Altair', reading: '31°02.4′' })`.
   * Without `round` it joins that of the reading nearest in time, up to an hour away; without `sight` that of a like
   * reading up to 90 s before it.
   * @returns its number
   * @throws EntryError naming what is missing or wrong
   */
  add(entries: Entries<string>): number {
    const texts = Object.fromEntries(
      Object.entries(entries).filter(([, text]) => text !== undefined && text.trim() !== ''),
    ) as Record<string, string>;
    const row = this.take('The new reading', null, texts);
    return this.store.append({ ...row, ...placeReading(this.store, row) });
  }

  /** Readings are not used, and why; they stay in the log. @throws EntryError without a reason */
  reject(which: Which | readonly Which[], reason: string): void {
    if (reason.trim() === '')
      throw new EntryError('Say why, such as book.reject(12, "horizon hazy").', reason);
    for (const number of this.numbers(which))
      this.revise(number, { accepted: false, reason: reason.trim() });
  }

  /** Readings are used again. */
  accept(which: Which | readonly Which[]): void {
    for (const number of this.numbers(which)) this.revise(number, { accepted: true, reason: null });
  }

  /**
   * Makes these readings one sight: `book.group([3, 4, 5], { sight: '2' })`. Without `round` that of the first reading,
   * without `sight` the next free number.
   * @throws EntryError when readings of that sight would differ in body, limb, observer, sextant or horizon
   */
  group(
    which: Which | readonly Which[],
    to: { readonly round?: string; readonly sight?: string } = {},
  ): void {
    const numbers = this.numbers(which);
    const first = this.store.row(numbers[0] ?? 0);
    if (!first) throw new RangeError('name at least one reading to make a sight of');
    const round = to.round?.trim() || String(first['round']);
    const sight = to.sight?.trim() || freeSight(this.store, round);
    const inSight = [...this.store.numbers()].filter((n) => {
      const row = this.store.row(n);
      return row?.['round'] === round && row['sight'] === sight;
    });
    for (const number of [...numbers, ...inSight]) {
      const row = this.store.row(number) as RowValues;
      const differs = unlike(first, row);
      if (differs)
        throw new EntryError(
          `Readings of one sight have one body, limb, observer, sextant and horizon: '${readingLabel(numbers[0] ?? 0, first)}' and '${readingLabel(number, row)}' differ in ${differs}.`,
          sight,
        );
    }
    for (const number of numbers) this.revise(number, { round, sight });
  }

  /** Takes an amendment that is kept as data. @internal */
  apply(amendment: Amendment): void {
    switch (amendment.kind) {
      case 'correct':
        return this.correct(amendment.which, amendment.entries);
      case 'add':
        return void this.add(amendment.entries);
      case 'reject':
        return this.reject(amendment.which, amendment.reason);
      case 'accept':
        return this.accept(amendment.which);
      case 'group':
        return this.group(amendment.which, amendment);
    }
  }

  private numbers(which: Which | readonly Which[]): number[] {
    return [which].flat().map((each) => numberOf(each as Which, this.store));
  }

  private revise(number: number, values: RowValues): void {
    this.store.put(number, { ...(this.store.row(number) as RowValues), ...values });
  }

  private take(what: string, row: RowValues | null, texts: Record<string, string>): RowValues {
    const amended = this.amender.amend(row, texts);
    if (amended.row) return amended.row;
    const finding = amended.findings.find((f) => f.refuse) as EntryFinding;
    throw new EntryError(`${what}, ${finding.name}: ${finding.reason}`, texts[finding.name] ?? '');
  }
}
