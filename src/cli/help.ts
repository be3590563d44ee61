/** The help pages of the command line. */
import type { Command } from './command.js';

/** The page of the whole program. */
export function programHelp(commands: readonly Command[]): string {
  const width = Math.max(...commands.map(({ name }) => name.length));
  const list = commands.map(({ name, summary }) => `  ${name.padEnd(width)}  ${summary}`);
  return `Cocked Hat: from sextant readings to a position and how far to trust it, in notebooks.

Usage: cocked-hat COMMAND [what it needs]

Commands
${list.join('\n')}

  cocked-hat COMMAND --help   explains one command, with examples
  --trace                     adds the stack trace to an error message
  --version                   prints the version

Begin with
  cocked-hat open             the notebooks in JupyterLab; start with 01-the-reading.ipynb
  cocked-hat doctor           if something does not work

Exit codes: 0 good, 1 the job failed, 2 the command was not understood.
Never rely on a single means of fixing your position.`;
}

/** A pointer to help, for the end of an error message. */
export function helpHint(command?: Command): string {
  return `cocked-hat ${command ? `${command.name} ` : ''}--help shows the right form.`;
}
