import { withDecimalPoint } from '../../core/units/decimal-comma.js';
import { logColumns } from '../columns/log-columns.js';
import type { CellValue, LogColumn } from '../columns/column.js';
import { readUtcMs } from '../columns/read-time.js';
import * as print from '../columns/print-value.js';
import type { LogReport } from '../report.js';
import { guardFormula } from './formulas.js';

/** How a CSV is to be written. */
export interface CsvOptions {
  /** `,` unless told; `;` suits spreadsheets of countries with a decimal comma. */
  readonly delimiter?: ',' | ';' | '\t';
  /** Begin with a byte-order mark, which some spreadsheets need to see UTF-8. */
  readonly bom?: boolean;
  /** `\r\n` as RFC 4180 has it, unless told. */
  readonly lineEnd?: '\r\n' | '\n';
}

type Row = Readonly<Record<string, CellValue>>;

/**
 * Writes a log in our own format. What was written in a cell comes out as it was; columns without any entry are
 * left out, but for time, body, limb and reading. Refused rows go to the end as comments, so that no file that
 * comes out holds less than the one that went in.
 */
export function writeCsv(
  rows: readonly Row[],
  own: ReadonlyMap<string, string>,
  preamble: readonly string[],
  report: LogReport,
  options: CsvOptions = {},
): string {
  const delimiter = options.delimiter ?? ',';
  const end = options.lineEnd ?? '\r\n';
  const columns = logColumns.filter(
    (c) => ALWAYS.has(c.key) || rows.some((r) => cellText(c, r) !== ''),
  );
  const quote = (text: string) => quoted(guardFormula(text), delimiter);
  const heads = [...columns.map(headText), ...own.values()];
  const lines = rows.map((row) =>
    [...columns.map((c) => cellText(c, row)), ...[...own.keys()].map((k) => String(row[k] ?? ''))]
      .map(quote)
      .join(delimiter),
  );
  const text = [
    ...preamble,
    heads.map((h) => quoted(h, delimiter)).join(delimiter),
    ...lines,
    ...refusedLines(report),
  ];
  return (options.bom ? '\uFEFF' : '') + text.join(end) + end;
}

const ALWAYS = new Set(['utcMs', 'body', 'limb', 'readingDeg']);

const headText = (c: LogColumn) => (c.unit ? `${c.head} (${c.unit})` : c.head);

/** The text of a cell: as written where the value is still the written one, else printed. */
export function cellText(column: LogColumn, row: Row, unitInHead = true): string {
  const value = row[column.key] ?? null;
  if (column.key === 'utcMs') return utcCell(row);
  if (column.key === 'watchMs') return String(row['watchText'] ?? '');
  if (column.key === 'accepted') return value === false ? 'no' : row['reason'] ? 'yes' : '';
  if (value === null) return '';
  if (!column.textKey)
    return column.key === 'limb' && value === 'centre' ? centre(row) : String(value);
  const text = textOf(column, row) ?? column.print?.(value as number) ?? String(value);
  return unitInHead &&
    column.unit &&
    text.endsWith(` ${column.unit}`) &&
    BARE.test(text.slice(0, -column.unit.length).trim())
    ? text.slice(0, -column.unit.length).trim()
    : text;
}

const BARE = /^[+\-−]?\d+(?:[.,]\d+)?$/;

/** What was written, if it still says what the number says. */
export function textOf(column: LogColumn, row: Row): string | null {
  const text = column.textKey ? row[column.textKey] : null;
  const value = row[column.key];
  if (typeof text !== 'string' || typeof value !== 'number') return null;
  try {
    const read = column.read(column.numeric ? withDecimalPoint(text) : text);
    return Math.abs((read as number) - value) < 1e-9 * Math.max(1, Math.abs(value)) ? text : null;
  } catch {
    return null;
  }
}

/** UTC is left to watch time and watch error where it came from them. */
function utcCell(row: Row): string {
  const byWatch = (row['watchMs'] as number) - (row['watchErrorS'] as number) * 1000;
  if (row['utcText'] === null && row['watchText'] !== null && byWatch === row['utcMs']) return '';
  const ms = row['utcMs'] as number;
  const text = row['utcText'];
  return typeof text === 'string' && saysMs(text, ms) ? text : print.utc(ms);
}

const centre = (row: Row) => (row['body'] === 'Sun' || row['body'] === 'Moon' ? 'centre' : '');

function quoted(text: string, delimiter: string): string {
  const needs = text.includes(delimiter) || /["\r\n]|^\s|\s$|^#/.test(text);
  return needs ? `"${text.replaceAll('"', '""')}"` : text;
}

function refusedLines(report: LogReport): string[] {
  return report.refused.flatMap((row) => [
    ...row.findings.map(
      (f) => `# refused, line ${f.line}, ${f.head ?? 'row'}: ${f.reason.replace(/\s+/g, ' ')}`,
    ),
    `# refused text: ${JSON.stringify(row.text)}`,
  ]);
}

function saysMs(text: string, ms: number): boolean {
  try {
    return readUtcMs(text) === ms;
  } catch {
    return false;
  }
}
