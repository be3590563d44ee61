/** What a command of the command line is. */
import type { ParseArgsConfig } from 'node:util';
import type { Terminal } from './terminal.js';

/** Values and words that were given to a command, as node:util's parseArgs returns them. */
export interface Given {
  readonly values: Readonly<Record<string, string | boolean | (string | boolean)[] | undefined>>;
  readonly positionals: readonly string[];
}

/** One command. To add one, write a file in commands/ and list it in commands/index.ts. */
export interface Command {
  readonly name: string;
  /** One line for the list of commands; a verb first, no full stop. */
  readonly summary: string;
  /** What `cocked-hat NAME --help` prints: usage, what happens, options, examples. */
  readonly help: string;
  readonly options: NonNullable<ParseArgsConfig['options']>;
  /**
   * Does the work.
   * @returns the exit code: 0 good, 1 the job failed
   * @throws UsageError for wrong arguments (exit code 2), JobError for a failure with a known cause (1)
   */
  run(given: Given, terminal: Terminal): Promise<number>;
}
