import fs from 'node:fs/promises';
import path from 'node:path';
import type { CellError } from '../../cells/index.js';
import { CellProcess } from './child-process.js';
import { asNotebook, hasTag, linesOf, textOf, type Cell, type Notebook } from './notebook.js';
import { Outputs } from './outputs.js';
import { injectParameters } from './parameters.js';

export interface RunOptions {
  /** Folder the cells run in; the notebook's own if left out. */
  readonly cwd?: string;
  /** Goes on after a cell that fails, as if all cells had the tag `raises-exception`. */
  readonly allowErrors?: boolean;
  /** Values for names that the cell tagged `parameters` sets. */
  readonly parameters?: Readonly<Record<string, unknown>>;
  /** Longest time for one cell, in milliseconds; no limit if left out. */
  readonly timeoutMs?: number;
  /** Called before each code cell. */
  readonly onCell?: (cell: Cell, number: number, of: number) => void;
  /** The built program that runs cells, where it is not in dist/. */
  readonly program?: string;
}

export interface Failure {
  /** Which code cell failed, from 1. */
  readonly number: number;
  readonly cell: Cell;
  readonly error: CellError;
}

export interface RunResult {
  /** The notebook with the outputs of the cells that ran. */
  readonly notebook: Notebook;
  /** The cell that stopped the run; null if all ran. */
  readonly failure: Failure | null;
}

/**
 * Executes a notebook without Jupyter, in a process of its own.
 * @param source path of an .ipynb file, or its parsed contents (which stay unchanged)
 * @returns the notebook with outputs, in format 4.5, and the failure that stopped it
 */
export async function runNotebook(
  source: string | object,
  options: RunOptions = {},
): Promise<RunResult> {
  const notebook = await load(source);
  injectParameters(notebook, options.parameters ?? {});
  prepare(notebook);
  const cwd = options.cwd ?? (typeof source === 'string' ? path.dirname(source) : process.cwd());
  const outputs = new Outputs();
  const running = new Map<string, Cell>();
  const cells = new CellProcess(
    path.resolve(cwd),
    (run, event) => {
      const cell = running.get(run ?? '');
      if (cell) outputs.add(cell, event);
    },
    options.program,
  );
  try {
    const code = notebook.cells.filter(isRun);
    for (const [index, cell] of code.entries()) {
      const number = index + 1;
      options.onCell?.(cell, number, code.length);
      running.set(String(number), cell);
      const error = await runCell(cells, cell, number, outputs, options.timeoutMs ?? 0);
      if (error && !options.allowErrors && !hasTag(cell, 'raises-exception'))
        return { notebook, failure: { number, cell, error } };
    }
    return { notebook, failure: null };
  } finally {
    cells.end();
  }
}

async function runCell(
  cells: CellProcess,
  cell: Cell,
  number: number,
  outputs: Outputs,
  timeoutMs: number,
): Promise<CellError | null> {
  cell.execution_count = number;
  const code = textOf(cell.source);
  const outcome = await cells
    .run(String(number), `In[${number}]`, code, timeoutMs)
    .catch((reason: Error) => ({ status: 'error' as const, error: deathOf(reason) }));
  if (outcome.status === 'error') {
    outputs.error(cell, outcome.error);
    return outcome.error;
  }
  if (outcome.result) outputs.result(cell, outcome.result, number);
  return null;
}

const deathOf = ({ message }: Error): CellError => ({
  ename: 'DeadKernel',
  evalue: message,
  traceback: [`DeadKernel: ${message}`],
});

async function load(source: string | object): Promise<Notebook> {
  if (typeof source !== 'string') return asNotebook(structuredClone(source), 'the value given');
  const text = await fs.readFile(source, 'utf8');
  try {
    return asNotebook(JSON.parse(text), source);
  } catch (error) {
    if (error instanceof SyntaxError)
      throw new Error(`${source} is not a notebook: ${error.message}`, { cause: error });
    throw error;
  }
}

function isRun(cell: Cell): boolean {
  const empty = textOf(cell.source).trim() === '';
  return cell.cell_type === 'code' && !empty && !hasTag(cell, 'skip-execution');
}

/** Clears old outputs and brings the notebook to format 4.5. */
function prepare(notebook: Notebook): void {
  notebook.nbformat_minor = Math.max(5, notebook.nbformat_minor);
  notebook.metadata ??= {};
  notebook.metadata['kernelspec'] ??= {
    display_name: 'TypeScript · Cocked Hat',
    language: 'typescript',
    name: 'cocked-hat',
  };
  notebook.metadata['language_info'] ??= { name: 'typescript', file_extension: '.ts' };
  for (const [index, cell] of notebook.cells.entries()) {
    cell.id ??= `cell-${index + 1}`;
    cell.metadata ??= {};
    cell.source = linesOf(textOf(cell.source));
    if (cell.cell_type !== 'code') continue;
    cell.outputs = [];
    cell.execution_count = null;
  }
}

/** The notebook as the text of an .ipynb file, written as Jupyter writes it. */
export function notebookText(notebook: Notebook): string {
  return `${JSON.stringify(notebook, null, 1)}\n`;
}
