import { Outputs } from '../../kernel/runner/outputs.js';
import { hasTag, textOf, type Cell, type Notebook } from '../../kernel/runner/notebook.js';
import { Sandbox, type CellResult, type SandboxOptions } from './sandbox.js';

/** A cell that failed, and why. */
export interface CellFailure {
  readonly cell: string;
  readonly number: number;
  readonly message: string;
}

export interface RunCells {
  /** The notebook with outputs; the one given stays as it is. */
  readonly notebook: Notebook;
  readonly failures: readonly CellFailure[];
  /** What came of a cell that was run after the notebook's own. */
  readonly after?: CellResult;
}

/**
 * Runs the code cells of a notebook in a process of their own. A failed cell stops the run unless it is tagged
 * `raises-exception` or `goOn` is set. @param after a cell to run at the end, whose outcome is returned apart
 */
export async function runCells(
  source: Notebook,
  options: SandboxOptions & { readonly goOn?: boolean },
  after?: string,
): Promise<RunCells> {
  const notebook = structuredClone(source);
  const outputs = new Outputs();
  const failures: CellFailure[] = [];
  const sandbox = new Sandbox(options);
  try {
    let number = 0;
    for (const cell of notebook.cells.filter(isRun)) {
      number += 1;
      const result = await sandbox.run(
        cell.id ?? String(number),
        `In[${number}]`,
        textOf(cell.source),
      );
      const message = keep(cell, number, result, outputs);
      if (message === undefined || hasTag(cell, 'raises-exception')) continue;
      failures.push({ cell: cell.id ?? '', number, message });
      if (!options.goOn) break;
    }
    if (after === undefined) return { notebook, failures };
    return { notebook, failures, after: await sandbox.run('after', 'In[after]', after) };
  } finally {
    sandbox.end();
  }
}

const isRun = (cell: Cell): boolean =>
  cell.cell_type === 'code' && textOf(cell.source).trim() !== '' && !hasTag(cell, 'skip-execution');

/** Puts what came of a cell into it; returns the message of its failure. */
function keep(
  cell: Cell,
  number: number,
  result: CellResult,
  outputs: Outputs,
): string | undefined {
  cell.execution_count = number;
  for (const event of result.events) outputs.add(cell, event);
  const { outcome } = result;
  if (outcome.status === 'ok') {
    if (outcome.result) outputs.result(cell, outcome.result, number);
    return undefined;
  }
  outputs.error(cell, outcome.error);
  return `${outcome.error.ename}: ${outcome.error.evalue}`;
}
