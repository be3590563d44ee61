import { EntryError } from '../../core/units/index.js';
import { refuseFileName } from '../file-name.js';
import { decodeText } from './decode.js';
import { orderEvidence, type DateOrder, type DateText } from './date-order.js';
import { headsKnown, readHead, type HeadNames } from './head.js';
import { LogReading, type ReadLog } from './log-reading.js';
import { afterLineEnd, lineEnd, scanCsv, type CsvRecord } from './scan-csv.js';

/** What a reader of CSV may be told about a file. */
export interface CsvReading {
  /** How dates that do not begin with the year are written; unless told, a date such as 13/05/2027 in the file shows it. */
  readonly dates?: DateOrder;
  /** Heads of the file and what they are in a sight log: `{ By: 'observer', Ht: 'height of eye (ft)' }`. */
  readonly columns?: HeadNames;
}

/**
 * Reads a sight log from CSV. The delimiter (comma, semicolon or tab) is found from the head; decimal commas,
 * byte-order mark, CRLF and blank lines are taken; lines that start with # are comments and are kept. A row is
 * taken whole or refused whole; refused rows are kept in the report with every finding.
 * @throws EntryError when there is no head or it lacks what a sight log must have
 */
export function readCsv(
  input: string | Uint8Array,
  { dates, columns = {} }: CsvReading = {},
): ReadLog {
  refuseFileName(input, 'SightLog.fromCsv');
  const { text, notes } = decodeText(input);
  const top = readTop(text, columns);
  const named = top.heads.findLastIndex((h) => h !== '') + 1;
  const head = readHead(top.heads.slice(0, named), top.line, columns);
  const records = () => scanCsv(text, top.delimiter, top.next, top.nextLine, top.heads.length);
  const reading = new LogReading(
    head,
    (r) => text.slice(r.from, r.to),
    [...notes, ...head.notes],
    top.heads.length,
    true,
    dates,
    (dateAt) => orderEvidence(datesOf(records(), dateAt)),
  );
  for (const record of records()) {
    const first = text.charCodeAt(record.from);
    if (first === 35) top.preamble.push(text.slice(record.from, record.to));
    else reading.take(record);
  }
  return reading.finish(top.preamble);
}

function* datesOf(records: Iterable<CsvRecord>, dateAt: number): Generator<DateText> {
  for (const { line, cells } of records) yield { line, text: cells[dateAt] ?? '' };
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
function readTop(text: string, columns: HeadNames): Top {
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
      const delimiter = told ?? bestDelimiter(row, columns);
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

function bestDelimiter(row: string, columns: HeadNames): string {
  const known = (delimiter: string) => {
    const record = scanCsv(row, delimiter).next().value as CsvRecord | undefined;
    return headsKnown(record?.cells ?? [], columns);
  };
  return [',', ';', '\t', '|'].reduce((best, d) => (known(d) > known(best) ? d : best));
}
