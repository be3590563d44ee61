import { grammarForm } from '../types/grammar-form.js';
import type { CellSyntaxError } from './cell-syntax-error.js';

/** TypeScript's numbers for what the compiler of cells found: a text without its end, a strange character, a missing comma. */
const UNENDED = 1002;
const STRANGE = 1127;
const EXPECTED = 1005;
const STRANGE_MARK = /[‘’‚“”„«»‹›°º˚′″´]/;

/** What to write instead, where no judge of types says it: a published page has none, a site's comes later. */
export function syntaxForm(error: CellSyntaxError, source: string): string | undefined {
  const { line, column, message } = error;
  const lines = source.trimEnd().split('\n');
  const text = lines[line - 1] ?? '';
  const ended = line > lines.length || (line === lines.length && column > text.length);
  const wanted = ended ? "'}' expected." : "',' expected.";
  const say = (code: number, at: number) =>
    grammarForm({ code, message: wanted, line, column: at, length: 1 }, source);
  const mark = markBefore(text, column);
  if (mark >= 0) return say(STRANGE, mark + 1);
  if (!/^Unterminated/.test(message)) return say(EXPECTED, column);
  // In '34°17.6'' it is the mark before that ends the text too early.
  const doubled = text[column - 2] !== undefined && text[column - 2] === text[column - 1];
  return say(doubled ? EXPECTED : UNENDED, column);
}

/** Where a trade mark or a printer's quotation mark stands outside all texts, up to the place of the complaint. */
function markBefore(line: string, column: number): number {
  const bare = line.replace(/'[^']*'|"[^"]*"|`[^`]*`|\/\/.*/g, (text) => ' '.repeat(text.length));
  const at = bare.search(STRANGE_MARK);
  return at >= 0 && at <= column + 1 ? at : -1;
}
