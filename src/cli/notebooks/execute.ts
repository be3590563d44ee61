import path from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import { counted } from '../../core/units/counted.js';
import { type Failure, runNotebook, UnknownParameter } from '../../kernel/index.js';
import { UsageError } from '../errors.js';
import type { Terminal } from '../terminal.js';
import { readNotebook, writeNotebook } from './notebook-file.js';

/** How notebooks are to be run. */
export interface Execution {
  readonly parameters: Readonly<Record<string, unknown>>;
  readonly allowErrors: boolean;
  readonly timeoutMs: number | undefined;
}

const indented = (text: string) => text.replace(/^(?=.)/gm, '    ');

function tellFailure(file: string, { number, error }: Failure, terminal: Terminal): void {
  terminal.warn(`${file}: code cell ${number} failed`);
  terminal.warn(indented(stripVTControlCharacters(error.traceback.join('\n'))));
}

/**
 * Runs one notebook, reports, and writes the executed copy if `target` names a place (also after a failure, so that
 * the error can be read where it happened).
 * @returns true if every cell ran
 * @throws UsageError for a parameter that the notebook does not have
 */
export async function executeNotebook(
  file: string,
  target: string | undefined,
  { timeoutMs, ...execution }: Execution,
  terminal: Terminal,
): Promise<boolean> {
  const since = Date.now();
  let cells = 0;
  const { notebook, failure } = await runNotebook(readNotebook(file), {
    ...execution,
    ...(timeoutMs === undefined ? {} : { timeoutMs }),
    cwd: path.dirname(file),
    onCell: (_cell, number, of) => {
      cells = of;
      terminal.status(`${file}: cell ${number} of ${of}, ${elapsed(since)}`);
    },
  }).catch((reason: unknown) => {
    if (reason instanceof UnknownParameter) throw new UsageError(`${file}: ${reason.message}.`);
    throw reason;
  });
  terminal.status('');
  if (target !== undefined) writeNotebook(target, notebook);
  if (failure) tellFailure(file, failure, terminal);
  else terminal.say(`${file}: ${counted(cells, 'cell')}, ${elapsed(since)}${written(file, target)}`);
  return failure === null;
}

const elapsed = (since: number) => `${((Date.now() - since) / 1000).toFixed(1)} s`;

function written(file: string, target: string | undefined): string {
  if (target === undefined) return '';
  return target === file ? ', outputs written' : `, written to ${target}`;
}
