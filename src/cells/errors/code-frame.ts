import type { Position } from '../compile/source-position.js';
import { green, red } from './colours.js';

/** Characters of a line that are shown; what is cut off a longer one is an ellipsis. */
const WIDEST = 88;

/** The lines around a place in a cell, with an arrow and marks under `length` characters. */
export function codeFrame(source: string, at: Position, length = 1): string[] {
  const lines = source.split('\n');
  const firstLine = Math.max(1, at.line - 2);
  const lastLine = Math.min(lines.length, at.line + 1);
  const width = String(lastLine).length;
  const frame: string[] = [];
  for (let n = firstLine; n <= lastLine; n++) {
    const text = lines[n - 1] ?? '';
    const number = String(n).padStart(width);
    if (n !== at.line) {
      frame.push(`    ${number} | ${windowOf(text, 0)}`);
      continue;
    }
    const from =
      text.length > WIDEST
        ? Math.max(0, Math.min(at.column - 1 - WIDEST / 2, text.length - WIDEST))
        : 0;
    const shown = windowOf(text, from);
    const column = at.column - 1 - from;
    const marks = '^'.repeat(Math.max(1, Math.min(length, shown.length - column)));
    frame.push(`${green('-->')} ${number} | ${shown}`);
    frame.push(`    ${' '.repeat(width)} | ${blank(shown, column)}${red(marks)}`);
  }
  return frame;
}

/** At most the widest number of characters of a line, from one on. */
function windowOf(text: string, from: number): string {
  const part = text.slice(from, from + WIDEST);
  const head = from > 0 ? `…${part.slice(1)}` : part;
  return from + WIDEST < text.length ? `${head.slice(0, -1)}…` : head;
}

/** Blanks as wide as the start of a line, with its tabs kept. */
function blank(text: string, length: number): string {
  return text.slice(0, length).replace(/[^\t]/g, ' ').padEnd(length);
}
