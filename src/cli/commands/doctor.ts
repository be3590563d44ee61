import { INSTALLED } from '../bootstrap/paths.mjs';
import type { Command } from '../command.js';
import {
  checkBuild,
  checkChromium,
  checkData,
  checkExtension,
  checkJupyterLab,
  checkKernelspec,
  checkNode,
  checkNodePackages,
  checkPython,
  note,
  type Finding,
} from '../doctor/index.js';
import { UsageError } from '../errors.js';
import type { Terminal } from '../terminal.js';

const CHECKS: readonly (() => Finding)[] = [
  checkNode,
  checkNodePackages,
  checkPython,
  checkJupyterLab,
  () => checkKernelspec(),
  () => checkExtension(),
  checkBuild,
  () => checkData(),
  checkChromium,
];

/** In the installed package there is no set-up to look at: Jupyter is the user's own. */
const CHECKS_INSTALLED: readonly (() => Finding)[] = [
  checkNode,
  () => checkData(),
  () =>
    note(
      'JupyterLab',
      'not looked at: this is the installed package',
      'the Python package of Cocked Hat brings kernel and views to a Jupyter of your own',
    ),
];

/** What is looked at here. */
export const checksFor = (installed: boolean): readonly (() => Finding)[] =>
  installed ? CHECKS_INSTALLED : CHECKS;

const MARKS = { good: 'good', note: 'note', bad: 'BAD ' } as const;

/** Prints findings and remedies; returns the exit code. */
export function tell(findings: readonly Finding[], terminal: Terminal): number {
  const width = Math.max(...findings.map(({ subject }) => subject.length));
  for (const { subject, state, text, remedy } of findings) {
    terminal.say(`${MARKS[state]}  ${subject.padEnd(width)}  ${text}`);
    if (remedy) terminal.say(`${' '.repeat(width + 8)}→ ${remedy}`);
  }
  const count = findings.filter(({ state }) => state === 'bad').length;
  terminal.say(count === 0 ? '\nAll is well.' : `\n${count} to mend; begin with the first.`);
  return count === 0 ? 0 : 1;
}

export const doctor: Command = {
  name: 'doctor',
  summary: 'check the installation and say what to do',
  options: {},
  help: `Usage: cocked-hat doctor

Checks Node.js, the npm packages, Python and JupyterLab in .env, the registered kernel and
extension, the build, the checksums of the data files, and Chromium (which only the tests
need). Changes nothing. Each line that is not good says what to do.

In the installed package it looks at Node.js and the data only: there Jupyter is your own.

Exit code: 0 if all is well, 1 if something needs mending.

Examples
  cocked-hat doctor
  cocked-hat doctor > report.txt     to send to whoever helps you`,
  run: async ({ positionals }, terminal) => {
    if (positionals.length > 0)
      throw new UsageError('doctor takes no words: it looks at everything.');
    return tell(
      checksFor(INSTALLED).map((check) => check()),
      terminal,
    );
  },
};
