/** One record of a CSV text as it stands in the file. */
export interface CsvRecord {
  /** Number of its first line, from 1, as an editor counts. */
  readonly line: number;
  /** The cells, unquoted, blanks at both ends taken off. */
  readonly cells: readonly string[];
  /** Where the record starts and ends in the text, line end not included. */
  readonly from: number;
  readonly to: number;
  /** What is wrong with its quotation marks, and in which cell (from 0). */
  readonly damage?: { readonly cell: number; readonly reason: string };
}

/** A quoted cell may run over line ends, but not over more lines than this: beyond it the mark was forgotten. */
const MOST_LINES = 50;

const UNCLOSED =
  'The quotation mark that opens this cell is never closed. Close it, or write "" for a mark inside the text.';
const AFTER_QUOTE =
  'There is text after the closing quotation mark. Write "" for a mark inside the text.';

/**
 * Splits a CSV text into records (RFC 4180, and tolerant: any line end, any one-character delimiter, blank
 * lines passed over). It keeps line numbers and offsets so that each refusal can name its place. A quotation
 * mark left open spoils only the line it stands in: reading goes on at the next line.
 * @param width cells in a sound record; a quoted cell over several lines is believed only if the count comes right
 */
export function* scanCsv(
  text: string,
  delimiter: string,
  start = 0,
  line = 1,
  width?: number,
): Generator<CsvRecord> {
  let at = start;
  let number = line;
  while (at < text.length) {
    const end = lineEnd(text, at);
    let record = scanRecord(text, at, delimiter, number);
    const lines = record.to > end ? countLines(text, at, record.to) : 1;
    const doubtful = record.damage || (width !== undefined && record.cells.length !== width);
    if (lines > 1 && doubtful) record = scanRecord(text.slice(0, end), at, delimiter, number);
    const single = record.to <= end;
    // A spreadsheet writes a row without entries as separators alone.
    if (record.damage || record.cells.some((cell) => cell !== '')) yield record;
    number += single ? 1 : lines;
    at = afterLineEnd(text, record.to);
  }
}

/** Offset of the next CR or LF, or the end of the text. */
export function lineEnd(text: string, at: number): number {
  for (let i = at; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 10 || c === 13) return i;
  }
  return text.length;
}

/** Offset of the first character of the next line: CRLF is one line end. */
export function afterLineEnd(text: string, at: number): number {
  return text.charCodeAt(at) === 13 && text.charCodeAt(at + 1) === 10 ? at + 2 : at + 1;
}

function countLines(text: string, from: number, to: number): number {
  let lines = 1;
  for (let end = lineEnd(text, from); end < to; end = lineEnd(text, afterLineEnd(text, end)))
    lines++;
  return lines;
}

function scanRecord(text: string, from: number, delimiter: string, line: number): CsvRecord {
  const cells: string[] = [];
  const stop = delimiter.charCodeAt(0);
  let damage: CsvRecord['damage'];
  let at = from;
  for (;;) {
    const first = skipBlanks(text, at, stop);
    if (text.charCodeAt(first) === 34) {
      const cell = quotedCell(text, first, stop);
      cells.push(cell.text);
      if (cell.reason) damage ??= { cell: cells.length - 1, reason: cell.reason };
      at = cell.to;
    } else {
      const to = cellEnd(text, first, stop);
      cells.push(text.slice(first, to).trimEnd());
      at = to;
    }
    if (text.charCodeAt(at) !== stop) break;
    at += 1;
  }
  return damage ? { line, cells, from, to: at, damage } : { line, cells, from, to: at };
}

function skipBlanks(text: string, at: number, stop: number): number {
  let i = at;
  for (let c = text.charCodeAt(i); (c === 32 || c === 9 || c === 160) && c !== stop;)
    c = text.charCodeAt(++i);
  return i;
}

function cellEnd(text: string, at: number, stop: number): number {
  let i = at;
  for (; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === stop || c === 10 || c === 13) break;
  }
  return i;
}

/** A cell that starts with a quotation mark at `at`. */
function quotedCell(
  text: string,
  at: number,
  stop: number,
): { text: string; to: number; reason?: string } {
  const parts: string[] = [];
  let from = at + 1;
  let lines = 0;
  for (let i = from; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 10 && ++lines > MOST_LINES) break;
    if (c !== 34) continue;
    parts.push(text.slice(from, i));
    if (text.charCodeAt(i + 1) !== 34) {
      const rest = cellEnd(text, i + 1, stop);
      const tail = text.slice(i + 1, rest).trim();
      if (tail === '') return { text: parts.join(''), to: rest };
      return { text: text.slice(at, rest).trim(), to: rest, reason: AFTER_QUOTE };
    }
    parts.push('"');
    from = i + 2;
    i += 1;
  }
  const to = cellEnd(text, at, stop);
  return { text: text.slice(at, to).trimEnd(), to, reason: UNCLOSED };
}
