import type { LogColumn } from '../../log/columns/column.js';
import { entryName } from '../../log/amend/entry-names.js';
import { headEntry } from '../../log/csv/head.js';
import { unguardFormula } from '../../log/csv/formulas.js';
import { scanCsv } from '../../log/csv/scan-csv.js';
import type { Texts } from './sheet.js';

/** A block out of a spreadsheet: cells row by row, and where it brings heads, what they name. */
export interface PastedBlock {
  /** Entries by name for each row, when the first line named them; they are then new readings. */
  readonly named: readonly Texts[] | null;
  readonly cells: readonly (readonly string[])[];
}

const FEWEST_HEADS = 2;

/** Reads a block of cells: tabs as spreadsheets copy them, else commas or semicolons where every line has as many. */
export function pasted(text: string): PastedBlock {
  const lines = text.replace(/\s+$/, '');
  const delimiter = delimiterOf(lines);
  const cells =
    delimiter === null
      ? lines.split(/\r\n|\r|\n/).map((line) => [line.trim()])
      : [...scanCsv(lines, delimiter)].map((r) => r.cells.map(unguardFormula));
  const heads = (cells[0] ?? []).map(headEntry);
  if (heads.filter(Boolean).length < FEWEST_HEADS) return { named: null, cells };
  return { named: cells.slice(1).map((row) => entries(heads, row)), cells };
}

function delimiterOf(text: string): string | null {
  if (text.includes('\t')) return '\t';
  const rows = (d: string) => [...scanCsv(text, d)].map((r) => r.cells.length);
  const regular = [';', ','].find((d) => {
    const widths = rows(d);
    return widths.length > 1 && (widths[0] ?? 0) > 1 && widths.every((w) => w === widths[0]);
  });
  return regular ?? null;
}

type Head = { readonly column: LogColumn; readonly unit: string } | null;
const BARE = /^[+\-−]?\d+(?:[.,]\d+)?$/;

function entries(heads: readonly Head[], row: readonly string[]): Texts {
  const named = heads.flatMap((head, i) => {
    const text = row[i] ?? '';
    if (!head || text === '') return [];
    const whole =
      head.unit && BARE.test(text) ? `${text} ${head.unit}`.replace(/ ([°′])$/, '$1') : text;
    return [[entryName(head.column), whole] as const];
  });
  return Object.fromEntries(named.filter(([name]) => name !== 'accepted' && name !== 'reason'));
}
