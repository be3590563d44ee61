/** The command line as a function of its arguments, so that tests can call it. */
import type { Command } from './command.js';
import { JobError, UsageError } from './errors.js';
import { fileFailure } from './file-failure.js';
import { helpHint, programHelp } from './help.js';
import { nearest } from '../core/units/nearest-word.js';
import { parseGiven } from './parse.js';
import type { Terminal } from './terminal.js';
import { version } from './version.js';

function report(error: unknown, terminal: Terminal, trace: boolean, command?: Command): number {
  const known = error instanceof UsageError || error instanceof JobError;
  const message = error instanceof Error ? error.message : String(error);
  terminal.warn(known ? message : `Unexpected failure: ${message}`);
  if (error instanceof JobError && error.remedy) terminal.warn(`What to do: ${error.remedy}`);
  if (error instanceof UsageError) terminal.warn(helpHint(command));
  if (trace && error instanceof Error) terminal.warn(error.stack ?? '');
  else if (!known) terminal.warn('The same command with --trace shows where it happened.');
  return error instanceof UsageError ? 2 : 1;
}

function unknownCommand(name: string, commands: readonly Command[]): UsageError {
  const names = commands.map((command) => command.name);
  const meant = nearest(name, names);
  return new UsageError(
    `There is no command "${name}"; ${meant ? `did you mean "${meant}"?` : `the commands are ${names.join(', ')}.`}`,
  );
}

function programOption(name: string, commands: readonly Command[], terminal: Terminal): number {
  if (name === '--version' || name === '-V') terminal.say(version());
  else if (['--help', '-h', 'help'].includes(name)) terminal.say(programHelp(commands));
  else throw new UsageError(`There is no option ${name} before a command.`);
  return 0;
}

async function dispatch(
  args: readonly string[],
  commands: readonly Command[],
  terminal: Terminal,
  found: (command: Command) => void,
): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined) {
    terminal.warn(programHelp(commands));
    return 2;
  }
  const asked = name === 'help' ? rest[0] : name;
  if (asked === undefined || asked.startsWith('-')) return programOption(name, commands, terminal);
  const command = commands.find((candidate) => candidate.name === asked);
  if (!command) throw unknownCommand(asked, commands);
  found(command);
  const given = parseGiven(command, name === 'help' ? ['--help'] : rest);
  if (given.values['help'] !== true) return command.run(given, terminal);
  terminal.say(command.help);
  return 0;
}

/**
 * Runs one command line.
 * @param args the words after the program's name
 * @returns the exit code: 0 good, 1 the job failed, 2 the command was not understood
 */
export async function runCommandLine(
  args: readonly string[],
  commands: readonly Command[],
  terminal: Terminal,
): Promise<number> {
  const trace = args.includes('--trace');
  const words = args[0] === '--trace' ? args.slice(1) : args;
  let command: Command | undefined;
  try {
    return await dispatch(words, commands, terminal, (found) => (command = found));
  } catch (error) {
    return report(fileFailure(error), terminal, trace, command);
  }
}
