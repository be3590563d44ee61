import { endChildren } from '../bootstrap/process-tree.mjs';
import type { Command, Given } from '../command.js';
import { UsageError } from '../errors.js';
import {
  chooseDestination,
  executeNotebook,
  findNotebooks,
  readSettings,
  readTimeout,
} from '../notebooks/index.js';
import type { Terminal } from '../terminal.js';

/** A cell that never ends must not outlive us. */
function endCellsWithUs(): void {
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const)
    process.once(signal, () => {
      endChildren();
      process.exit(130);
    });
}

async function runNotebooks({ values, positionals }: Given, terminal: Terminal): Promise<number> {
  if (positionals.length === 0)
    throw new UsageError(
      'run needs at least one notebook, as in run notebooks/02-one-sight.ipynb.',
    );
  const execution = {
    parameters: readSettings((values['set'] as string[] | undefined) ?? []),
    allowErrors: values['allow-errors'] === true,
    timeoutMs: readTimeout(values['timeout'] as string | undefined),
  };
  const notebooks = findNotebooks(positionals);
  const destination = chooseDestination(notebooks, {
    out: values['output'] as string | undefined,
    inPlace: values['in-place'] === true,
  });
  endCellsWithUs();
  let failed = 0;
  for (const file of notebooks)
    if (!(await executeNotebook(file, destination(file), execution, terminal))) failed += 1;
  if (notebooks.length > 1) terminal.say(`${notebooks.length} notebooks, ${failed} failed`);
  return failed === 0 ? 0 : 1;
}

export const run: Command = {
  name: 'run',
  summary: 'run notebooks without Jupyter; check them or keep their outputs',
  options: {
    output: { type: 'string', short: 'o' },
    'in-place': { type: 'boolean' },
    set: { type: 'string', multiple: true },
    timeout: { type: 'string' },
    'allow-errors': { type: 'boolean' },
  },
  help: `Usage: cocked-hat run NOTEBOOK... [-o PLACE | --in-place] [--set NAME=VALUE]...
                      [--timeout SECONDS] [--allow-errors]

Runs every cell of each notebook from top to bottom in a fresh session, in the notebook's own
folder. A folder stands for all notebooks in it. Without -o and --in-place nothing is written:
the run tells only whether every cell works.

  -o, --output PLACE  writes the executed notebook to PLACE: a name ending in .ipynb for one
                      notebook, a folder (made if missing) for one or more
  --in-place          writes the outputs into the notebook itself
  --set NAME=VALUE    sets a variable after the cell tagged "parameters"; VALUE is JSON or text
  --timeout SECONDS   longest time for one cell; without it there is no limit
  --allow-errors      goes on after a cell that fails

Exit code: 0 if every cell ran, 1 if one failed (its message is shown), 2 for wrong usage.

Examples
  cocked-hat run notebooks                                  do all notebooks still work?
  cocked-hat run notebooks/02-one-sight.ipynb -o out.ipynb  keep the executed copy
  cocked-hat run lesson.ipynb --set seed=7 -o class/        another student's numbers`,
  run: runNotebooks,
};
