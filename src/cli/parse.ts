/** Reads the arguments of a command; mistakes become sentences. */
import { parseArgs } from 'node:util';
import type { Command, Given } from './command.js';
import { UsageError } from './errors.js';
import { nearest } from '../core/units/nearest-word.js';

/** Options that every command understands. */
const COMMON = {
  help: { type: 'boolean', short: 'h' },
  trace: { type: 'boolean' },
} as const;

function optionNamed(text: string): string {
  return text.match(/'(--?[\w-]+)/)?.[1] ?? text;
}

function explain(error: unknown, names: readonly string[]): UsageError {
  const { code = '', message } = error as Error & { code?: string };
  const option = optionNamed(message);
  if (code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION') {
    const meant = nearest(option.replace(/^-+/, ''), names);
    return new UsageError(
      `There is no option ${option}${meant ? `; did you mean --${meant}?` : '.'}`,
    );
  }
  if (code === 'ERR_PARSE_ARGS_INVALID_OPTION_VALUE')
    return new UsageError(
      /does not take an argument/.test(message)
        ? `${option} stands alone and takes no value.`
        : `${option} needs a value after it, as in "${option} VALUE".`,
    );
  return new UsageError(message);
}

/** @throws UsageError */
export function parseGiven(command: Command, args: readonly string[]): Given {
  const options = { ...COMMON, ...command.options };
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true }) as Given;
  } catch (error) {
    throw explain(error, Object.keys(options));
  }
}
