import type { CellError } from '../errors/cell-error.js';
import { codeFrame } from '../errors/code-frame.js';
import { cyan, red } from '../errors/colours.js';
import type { Diagnostic } from './type-engine.js';

/** Most complaints printed for one cell. */
const MOST = 10;

/** The report of a cell whose types, or whose grammar, are wrong. */
export function describeDiagnostics(
  diagnostics: readonly Diagnostic[],
  label: string,
  source: string,
): CellError {
  const ename = diagnostics.some(isGrammar) ? 'SyntaxError' : 'TypeCheckError';
  const first = diagnostics[0];
  const lines = diagnostics.slice(0, MOST).flatMap((d) => diagnosticLines(d, label, source));
  const more = diagnostics.length - MOST;
  return {
    ename,
    evalue: first ? `${first.message} (${place(first, label)})` : '',
    traceback: [
      `${red(ename)}: ${first?.message ?? ''}`,
      ...lines,
      ...(more > 0 ? [`… and ${more} more`] : []),
    ],
  };
}

/** The same as plain lines, for cells whose type errors are only warnings. */
export function warnOf(diagnostics: readonly Diagnostic[], label: string, source: string): string {
  return diagnostics.flatMap((d) => diagnosticLines(d, label, source)).join('\n') + '\n';
}

function diagnosticLines(d: Diagnostic, label: string, source: string): string[] {
  const heading = `${cyan(place(d, label))} TS${d.code}: ${d.message}`;
  return d.file ? [heading] : [heading, ...codeFrame(source, d, d.length)];
}

const place = (d: Diagnostic, label: string) => `${d.file ?? label}:${d.line}:${d.column}`;

/** TypeScript numbers its complaints about grammar from 1000, those about types from 2000. */
const isGrammar = (d: Diagnostic) => d.code < 2000;
