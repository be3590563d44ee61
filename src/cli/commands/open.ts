import { spawn } from 'node:child_process';
import path from 'node:path';
import { INSTALLED, ROOT } from '../bootstrap/paths.mjs';
import type { Command, Given } from '../command.js';
import { JobError, UsageError } from '../errors.js';

const START = path.join(ROOT, 'src', 'cli', 'bootstrap', 'start.mjs');

/** The words that start.mjs understands for what was given. */
export function startArguments({ values, positionals }: Given): string[] {
  if (positionals.length > 1)
    throw new UsageError(`open takes one notebook or folder, not ${positionals.length}.`);
  const args = [...positionals];
  if (values['no-browser'] === true) args.push('--no-browser');
  if (values['port'] !== undefined) args.push('--port', String(values['port']));
  return args;
}

/** @throws JobError in the installed package, which has nothing to start */
export function refuseInstalled(installed = INSTALLED): void {
  if (installed)
    throw new JobError(
      'open works in the folder of Cocked Hat: the installed package brings no JupyterLab',
      'in a Jupyter of your own pip install the Python package of Cocked Hat, which brings kernel and views, and start jupyter lab',
    );
}

/** Starts set-up and JupyterLab; signals to us are for it, and it ends first. */
function startLab(args: string[]): Promise<number> {
  const child = spawn(process.execPath, [START, ...args], { stdio: 'inherit' });
  process.on('SIGINT', () => {});
  for (const signal of ['SIGTERM', 'SIGHUP'] as const) process.on(signal, () => child.kill(signal));
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('exit', (code) => resolve(code ?? 1));
  });
}

export const open: Command = {
  name: 'open',
  summary: 'open the notebooks, or a folder of your own, in JupyterLab',
  options: { port: { type: 'string' }, 'no-browser': { type: 'boolean' } },
  help: `Usage: cocked-hat open [NOTEBOOK or FOLDER] [--port N] [--no-browser]

Opens JupyterLab on the notebooks, as npm start does; installs and builds first whatever is
missing. It serves this computer only. Ctrl-C stops it and every kernel.

  NOTEBOOK      opens this notebook at once
  FOLDER        shows this folder, for logs and lessons of your own; it may lie anywhere
  --port N      serves at port N; without it, the first free port from 8888 on
  --no-browser  prints the address and opens no browser

Examples
  cocked-hat open
  cocked-hat open notebooks/02-one-sight.ipynb
  cocked-hat open ~/passage
  cocked-hat open --no-browser --port 9000`,
  run: async (given) => {
    const words = startArguments(given);
    refuseInstalled();
    return startLab(words);
  },
};
