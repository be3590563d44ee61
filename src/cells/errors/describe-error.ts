import type { Position } from '../compile/source-position.js';
import { inspectValue } from '../values/inspect.js';
import type { CellError } from './cell-error.js';
import type { CellSyntaxError } from './cell-syntax-error.js';
import { codeFrame } from './code-frame.js';
import { cyan, red } from './colours.js';
import { syntaxForm } from './syntax-form.js';
import { parseStack, type StackFrame } from './stack-frames.js';

/** Looks up the cells that stack frames come from. */
export interface CellSources {
  /** The place in a cell, or null where the frame is not of a cell. */
  locate(frame: StackFrame): { label: string; source: string; at: Position } | null;
  /** True for frames of the kernel's own code, which a report leaves out. */
  isInternal(frame: StackFrame): boolean;
}

/** Most frames a report lists, and most causes it follows. */
const MOST_FRAMES = 20;
const MOST_CAUSES = 5;

/** An error report in cell lines. `label` names the cell for errors that have no stack. */
export function describeError(thrown: unknown, cells: CellSources, heading = ''): CellError {
  const { ename, evalue } = nameAndText(thrown);
  const traceback = [
    `${heading}${red(ename)}: ${evalue}`,
    ...framesOf(thrown, cells),
    ...causesOf(thrown, cells),
  ];
  return { ename, evalue, traceback };
}

/** The report of a cell that could not be read. */
export function describeSyntaxError(
  error: CellSyntaxError,
  label: string,
  source: string,
): CellError {
  const form = syntaxForm(error, source);
  return {
    ename: error.name,
    evalue: error.message,
    traceback: [
      `${red(error.name)}: ${error.message}`,
      ...(form === undefined ? [] : [form]),
      cyan(`${label}:${error.line}:${error.column}`),
      ...codeFrame(source, error),
    ],
  };
}

function nameAndText(thrown: unknown): { ename: string; evalue: string } {
  if (!(thrown instanceof Error) && !isErrorLike(thrown))
    return { ename: 'Thrown', evalue: inspectValue(thrown) };
  const { name, message } = thrown;
  return { ename: String(name || 'Error'), evalue: String(message) };
}

function isErrorLike(value: unknown): value is Error {
  const record = value as Partial<Error> | null;
  return typeof record === 'object' && record !== null && typeof record.stack === 'string';
}

function framesOf(thrown: unknown, cells: CellSources): string[] {
  if (!isErrorLike(thrown)) return [];
  const frames = parseStack(thrown.stack ?? '').filter((f) => !cells.isInternal(f));
  const lines: string[] = [];
  let framed = false;
  for (const frame of frames.slice(0, MOST_FRAMES)) {
    const found = cells.locate(frame);
    const place = found
      ? `${found.label}:${found.at.line}:${found.at.column}`
      : `${frame.file}:${frame.line}:${frame.column}`;
    const name =
      frame.name && !/^(eval|Object\.<anonymous>)$/.test(frame.name) ? ` in ${frame.name}` : '';
    if (found && !framed) {
      framed = true;
      lines.unshift(cyan(place) + name, ...codeFrame(found.source, found.at));
    } else lines.push(`  at ${place}${name}`);
  }
  return lines;
}

function causesOf(thrown: unknown, cells: CellSources, depth = 1): string[] {
  if (!isErrorLike(thrown) || depth > MOST_CAUSES) return [];
  const causes = thrown instanceof AggregateError ? thrown.errors : [];
  if (thrown.cause !== undefined) causes.push(thrown.cause);
  return causes.slice(0, MOST_CAUSES).flatMap((cause) => {
    const { ename, evalue } = nameAndText(cause);
    return [
      `Caused by ${red(ename)}: ${evalue}`,
      ...framesOf(cause, cells),
      ...causesOf(cause, cells, depth + 1),
    ];
  });
}
