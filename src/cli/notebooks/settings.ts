import { UsageError } from '../errors.js';

function valueOf(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return text;
  }
}

/**
 * Reads `--set NAME=VALUE` words; a value that is not JSON is taken as text.
 * @throws UsageError
 */
export function readSettings(words: readonly string[]): Record<string, unknown> {
  const pairs = words.map((word) => {
    const [, name, value] = /^([^=]+)=(.*)$/s.exec(word) ?? [];
    if (name === undefined || value === undefined)
      throw new UsageError(`--set ${word}: the form is --set NAME=VALUE, as in --set seed=7`);
    if (!/^[\p{ID_Start}$_][\p{ID_Continue}$]*$/u.test(name))
      throw new UsageError(`--set ${word}: ${name} cannot be a variable's name`);
    return [name, valueOf(value)] as const;
  });
  return Object.fromEntries(pairs);
}

/** Reads `--timeout SECONDS` into milliseconds; undefined means no limit. */
export function readTimeout(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const seconds = Number(text);
  if (text.trim() === '' || !(seconds > 0) || seconds > 86_400)
    throw new UsageError(
      `--timeout ${text}: give the seconds one cell may take, as in --timeout 60 (at most a day)`,
    );
  return seconds * 1000;
}
