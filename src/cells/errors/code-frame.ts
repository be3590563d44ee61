import type { Position } from '../compile/source-position.js';
import { green, red } from './colours.js';

/** The lines around a place in a cell, with an arrow and marks under `length` characters. */
export function codeFrame(source: string, at: Position, length = 1): string[] {
  const lines = source.split('\n');
  const from = Math.max(1, at.line - 2);
  const to = Math.min(lines.length, at.line + 1);
  const width = String(to).length;
  const frame: string[] = [];
  for (let n = from; n <= to; n++) {
    const text = lines[n - 1] ?? '';
    const number = String(n).padStart(width);
    if (n !== at.line) {
      frame.push(`    ${number} | ${text}`);
      continue;
    }
    const marks = '^'.repeat(Math.max(1, Math.min(length, text.length - at.column + 1)));
    frame.push(`${green('-->')} ${number} | ${text}`);
    frame.push(`    ${' '.repeat(width)} | ${blank(text, at.column - 1)}${red(marks)}`);
  }
  return frame;
}

/** Blanks as wide as the start of a line, with its tabs kept. */
function blank(text: string, length: number): string {
  return text.slice(0, length).replace(/[^\t]/g, ' ').padEnd(length);
}
