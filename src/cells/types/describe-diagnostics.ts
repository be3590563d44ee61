import type { CellError } from '../errors/cell-error.js';
import { codeFrame } from '../errors/code-frame.js';
import { cyan, red } from '../errors/colours.js';
import { rightForm, type LibraryNames } from './right-form.js';
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
  const [first, ...others] = onceEach(grammar.length > 0 ? grammar : found);
  if (!first) return { ename, evalue: '', traceback: [red(ename)] };
  const more = others.length + 1 - MOST;
  const [complaint, ...rest] = said(first, library);
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
  const [complaint, ...rest] = said(d, library);
  return [`${cyan(place(d, label))} TS${d.code}: ${complaint}`, ...rest, ...frameOf(d, source)];
}

/** What TypeScript says, and in our words what to write. */
function said(d: Diagnostic, library?: LibraryNames): string[] {
  const message = d.message.replace(/import\("[^"]*"\)\./g, '');
  const form = rightForm({ message }, library);
  return form === undefined ? [message] : [message, form];
}

const frameOf = (d: Diagnostic, source: string) => (d.file ? [] : codeFrame(source, d, d.length));

const place = (d: Diagnostic, label: string) => `${d.file ?? label}:${d.line}:${d.column}`;

/** TypeScript numbers its complaints about grammar from 1000, those about types from 2000. */
const isGrammar = (d: Diagnostic) => d.code < 2000;
