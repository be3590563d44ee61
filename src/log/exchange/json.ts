import { EntryError } from '../../core/units/index.js';
import { logColumns } from '../columns/log-columns.js';
import type { CellValue } from '../columns/column.js';
import { readHead } from '../csv/head.js';
import { LogReading, type ReadLog } from '../csv/log-reading.js';
import { cellText } from '../csv/write-csv.js';
import { refuseFileName } from '../file-name.js';
import type { LogReport } from '../report.js';

const FORMAT = 'sight log';
const VERSION = 1;

/** A log as JSON: each reading an object of the texts that its row in CSV would hold, by the same heads. */
export interface LogJson {
  readonly format: typeof FORMAT;
  readonly version: number;
  readonly comments: readonly string[];
  /** Heads of columns that are the log's own; an empty one stands in no reading. */
  readonly own?: readonly string[];
  readonly readings: readonly Readonly<Record<string, string>>[];
  /** Rows refused when the log was read: their text, and why. */
  readonly refused: LogReport['refused'];
}

type Row = Readonly<Record<string, CellValue>>;

export function logToJson(
  rows: readonly Row[],
  own: ReadonlyMap<string, string>,
  comments: readonly string[],
  report: LogReport,
): LogJson {
  const readings = rows.map((row) => {
    const known = logColumns.map((c) => [c.head, cellText(c, row, false)] as const);
    const others = [...own].map(([key, head]) => [head, String(row[key] ?? '')] as const);
    return Object.fromEntries([...known, ...others].filter(([, text]) => text !== ''));
  });
  const heads = own.size > 0 ? { own: [...own.values()] } : {};
  return {
    format: FORMAT,
    version: VERSION,
    comments,
    ...heads,
    readings,
    refused: report.refused,
  };
}

/**
 * Reads the JSON of a log; every reading is checked as a row of CSV is, and reported by its number in the list.
 * @throws EntryError when the text is no JSON or no sight log
 */
export function logFromJson(text: string): ReadLog {
  refuseFileName(text, 'SightLog.fromJson');
  const data = parse(text);
  const heads = [...new Set([...data.readings.flatMap((r) => Object.keys(r)), ...ownHeads(data)])];
  const head = readHead(heads, 0);
  const reading = new LogReading(
    head,
    (r) => JSON.stringify(data.readings[r.line - 1]),
    [...head.notes],
    heads.length,
    false,
  );
  data.readings.forEach((r, i) => {
    const cells = heads.map((h) => String(r[h] ?? ''));
    reading.take({ line: i + 1, cells, from: 0, to: 0 });
  });
  return reading.finish(data.comments, data.refused);
}

const ownHeads = ({ own }: LogJson): string[] =>
  Array.isArray(own) ? own.filter((head): head is string => typeof head === 'string') : [];

function parse(text: string): LogJson {
  let data: Partial<LogJson>;
  try {
    data = JSON.parse(text) as Partial<LogJson>;
  } catch (error) {
    throw new EntryError(
      `This is not JSON: ${error instanceof Error ? error.message : String(error)}.`,
      text.slice(0, 80),
    );
  }
  if (data?.format !== FORMAT || !Array.isArray(data.readings))
    throw new EntryError(
      `This JSON is no sight log: it should say "format": "${FORMAT}" and hold a list of readings.`,
      text.slice(0, 80),
    );
  if (data.version !== VERSION)
    throw new EntryError(
      `This sight log is of version ${String(data.version)}; version ${VERSION} is read here.`,
      text.slice(0, 80),
    );
  return { ...data, comments: data.comments ?? [], refused: data.refused ?? [] } as LogJson;
}
