import { hasDecimalComma, withDecimalPoint } from '../../core/units/decimal-comma.js';
import { EntryError } from '../../core/units/index.js';
import type { CellValue, LogColumn } from '../columns/column.js';

/** A cell understood, or why it was not. `text` is what was written, with the unit of the head put to it. */
export type ReadCell =
  | { readonly ok: true; readonly value: CellValue; readonly text: string; readonly comma: boolean }
  | { readonly ok: false; readonly reason: string };

/** Whether a cell is a number and nothing else. */
export const isBareNumber = (cell: string): boolean => BARE_NUMBER.test(cell);

const BARE_NUMBER = /^[+\-−]?\s*(?:\d+(?:[.,]\d*)?|[.,]\d+)$/;

/** Signs of a file saved in one encoding and read in another, or of bytes that are no text. */
const BROKEN = /\uFFFD|Â[°º]|â€[²³™]|[\u0000-\u0008\u000b\u000c\u000e-\u001f]/;
const LETTER_FOR_FIGURE = /\d[OoIl]|[OoIl]\d/;

/** Reads cells of one column; equal texts are read once. */
export class CellReader {
  private readonly known = new Map<string, ReadCell>();
  constructor(
    private readonly column: LogColumn,
    private readonly unit = '',
    private readonly prefix = '',
  ) {}

  read(cell: string): ReadCell {
    const earlier = this.known.get(cell);
    if (earlier) return earlier;
    const result = this.work(cell);
    if (this.known.size < 50_000) this.known.set(cell, result);
    return result;
  }

  private work(cell: string): ReadCell {
    if (BROKEN.test(cell))
      return {
        ok: false,
        reason:
          'The cell holds characters of a file saved in another encoding. Save it as UTF-8 and read it again.',
      };
    const text = this.withUnit(cell);
    const comma = this.column.numeric === true && hasDecimalComma(text);
    const plain = comma ? withDecimalPoint(text) : text;
    try {
      return { ok: true, value: this.column.read(plain), text, comma };
    } catch (error) {
      if (!(error instanceof EntryError || error instanceof RangeError)) throw error;
      const reason = error.message.split('\n')[0] ?? '';
      const letters =
        this.column.numeric && LETTER_FOR_FIGURE.test(cell)
          ? ' A letter O or l stands among the figures.'
          : '';
      return { ok: false, reason: reason + letters };
    }
  }

  /** The text of a cell with the unit of the head put to a bare number. */
  withUnit(cell: string): string {
    if (this.prefix) return this.prefix + (BARE_NUMBER.test(cell) ? cell + this.unit : cell);
    if (!this.unit || !BARE_NUMBER.test(cell)) return cell;
    return /^[°′]$/.test(this.unit) ? cell + this.unit : `${cell} ${this.unit}`;
  }
}
