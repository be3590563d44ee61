import type { CellError } from '../errors/cell-error.js';
import { codeFrame } from '../errors/code-frame.js';
import { cyan, red } from '../errors/colours.js';
import { grammarForm, onePerLine } from './grammar-form.js';
import { rightForm, type LibraryNames, type WordPlace } from './right-form.js';
import type { Diagnostic } from './type-engine.js';

/** Most complaints printed for one cell. */
const MOST = 10;
/** TypeScript's number for `Cannot find name`. */
const UNKNOWN_NAME = 2304;

/**
 * The report of a cell whose types, or whose grammar, are wrong.
 * @param library names that the cell could have imported, for complaints about names it does not know
 */
export function describeDiagnostics(
  found: readonly Diagnostic[],
  label: string,
  source: string,
  library?: LibraryNames,
): CellError {
  const grammar = found.filter(isGrammar);
  const ename = grammar.length > 0 ? 'SyntaxError' : 'TypeCheckError';
  // Where the grammar is wrong, types are judged of what the cell does not say.
  const [first, ...others] = grammar.length > 0 ? onePerLine(grammar) : onceEach(found);
  if (!first) return { ename, evalue: '', traceback: [red(ename)] };
  const more = others.length + 1 - MOST;
  const [complaint, ...rest] = said(first, source, library);
  return {
    ename,
    evalue: [`${complaint} (${place(first, label)})`, ...rest].join('\n'),
    traceback: [
      `${red(ename)}: ${complaint}`,
      ...rest,
      cyan(`${place(first, label)} TS${first.code}`),
      ...frameOf(first, source),
      ...others.slice(0, MOST - 1).flatMap((d) => diagnosticLines(d, label, source, library)),
      ...(more > 0 ? [`… and ${more} more`] : []),
    ],
  };
}

/** A name that is not known is complained of at every place where it stands: once is enough. */
function onceEach(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const told = new Set<string>();
  return diagnostics.filter((d) => {
    if (d.code !== UNKNOWN_NAME || !told.has(d.message)) return told.add(d.message);
    return false;
  });
}

/** The same as plain lines, for cells whose type errors are only warnings. */
export function warnOf(diagnostics: readonly Diagnostic[], label: string, source: string): string {
  return diagnostics.flatMap((d) => diagnosticLines(d, label, source)).join('\n') + '\n';
}

function diagnosticLines(
  d: Diagnostic,
  label: string,
  source: string,
  library?: LibraryNames,
): string[] {
  const [complaint, ...rest] = said(d, source, library);
  return [`${cyan(place(d, label))} TS${d.code}: ${complaint}`, ...rest, ...frameOf(d, source)];
}

/** What TypeScript says, and in our words what to write. */
function said(d: Diagnostic, source: string, library?: LibraryNames): string[] {
  const whole = d.message.replace(/import\("[^"]*"\)\./g, '');
  // What the judge of types adds to a complaint about grammar is of a cell that does not say it.
  const message = isGrammar(d) ? whole.split('\n')[0]! : whole;
  const form = isGrammar(d)
    ? grammarForm(d, source)
    : rightForm({ message }, library, wordAt(d, source));
  return form === undefined ? [message] : [message, form];
}

/** The line of a complaint before and behind the word it is about. */
function wordAt(d: Diagnostic, source: string): WordPlace {
  const line = d.file ? '' : (source.split('\n')[d.line - 1] ?? '');
  const start = d.column - 1;
  return { before: line.slice(0, start), after: line.slice(start + d.length) };
}

const frameOf = (d: Diagnostic, source: string) => (d.file ? [] : codeFrame(source, d, d.length));

const place = (d: Diagnostic, label: string) => `${d.file ?? label}:${d.line}:${d.column}`;

/** TypeScript numbers its complaints about grammar from 1000, those about types from 2000. */
const isGrammar = (d: Diagnostic) => d.code < 2000;
