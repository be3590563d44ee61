import { counted } from '../core/units/counted.js';

/** One thing found in a row: where, in which words, and what the right form is. */
export interface CellFinding {
  /** Line of the file, from 1. */
  readonly line: number;
  /** Number of the cell in its row, from 1; null when the whole row is meant. */
  readonly column: number | null;
  /** The head of the column, as the file has it. */
  readonly head: string | null;
  /** The text as it stands. */
  readonly text: string;
  /** What is wrong and how to write it, in whole sentences. */
  readonly reason: string;
}

/** A row that was not taken into the log: its text is kept here whole. */
export interface RefusedRow {
  /** Line of the file, from 1. */
  readonly line: number;
  /** The row as it stands in the file. */
  readonly text: string;
  readonly findings: readonly CellFinding[];
  /** What its cells hold by the names of entries, as an amendment takes them; absent where the row does not fit the head. */
  readonly entries?: Readonly<Record<string, string>>;
}

/**
 * What reading a file found. `refused` rows are not in the log (a row is taken whole or not at all), `queries`
 * concern rows that are, `notes` say what was taken for granted in the whole file.
 */
export class LogReport {
  constructor(
    /** Rows with data that the file holds. */
    readonly rows: number,
    readonly refused: readonly RefusedRow[],
    readonly queries: readonly CellFinding[],
    readonly notes: readonly string[],
  ) {
    Object.freeze(this);
  }
  /** The same report with further notes. */
  withNotes(notes: readonly string[]): LogReport {
    return new LogReport(this.rows, this.refused, this.queries, [...this.notes, ...notes]);
  }
  /** Rows taken into the log. */
  get taken(): number {
    return this.rows - this.refused.length;
  }
  /** `40 rows: 38 taken, 2 refused, 1 to look at.` */
  get summary(): string {
    const queries = this.queries.length ? `, ${this.queries.length} to look at` : '';
    return `${counted(this.rows, 'row')}: ${this.taken} taken, ${this.refused.length} refused${queries}.`;
  }
  /** The report, a line a finding; of many rows refused for the same reason the first three, with the lines of the others. */
  toText(): string {
    return [
      this.summary,
      ...this.notes.map((n) => `note     ${n}`),
      ...refusedLines(this.refused),
      ...this.queries.map((f) => `look at  ${place(f)}: ${f.reason}${quoted(f)}`),
    ].join('\n');
  }
  /** The report in plain text: counts, refused rows with their text, notes. */
  toString(): string {
    return this.toText();
  }
  /** Findings as plain data. */
  toJSON(): unknown {
    return {
      rows: this.rows,
      refused: this.refused,
      queries: this.queries,
      notes: this.notes,
    };
  }
}

/** More rows than this that are refused for one reason are told together. */
const FEW = 5;
const SHOWN = 3;

function refusedLines(refused: readonly RefusedRow[]): string[] {
  const alike = new Map<string, RefusedRow[]>();
  for (const row of refused) {
    const why = row.findings.map((f) => `${f.head ?? ''}: ${f.reason}`).join('\n');
    const rows = alike.get(why);
    if (rows) rows.push(row);
    else alike.set(why, [row]);
  }
  return [...alike.values()].flatMap((rows) => {
    const shown = rows.length > FEW ? rows.slice(0, SHOWN) : rows;
    const rest = rows.slice(shown.length).map((row) => row.line);
    return [
      ...shown.flatMap((row) => [
        ...row.findings.map((f) => `refused  ${place(f)}: ${f.reason}${quoted(f)}`),
        `         kept: ${row.text}`,
      ]),
      ...(rest.length > 0
        ? [`refused  ${rest.length} more for the same reason, kept too: lines ${runsOf(rest)}`]
        : []),
    ];
  });
}

/** Numbers in order with their runs: `5–9, 11`. */
export function runsOf(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const n of numbers) {
    const last = runs.at(-1);
    if (last && n === last[1] + 1) last[1] = n;
    else runs.push([n, n]);
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : `${from}–${to}`)).join(', ');
}

const place = (f: CellFinding) =>
  `line ${f.line}${f.column === null ? '' : `, column ${f.column}`}${f.head ? ` (${f.head})` : ''}`;
const quoted = (f: CellFinding) => (f.column === null || f.text === '' ? '' : ` [${f.text}]`);
