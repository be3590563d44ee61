import { formatWithOptions, inspect } from 'node-inspect-extracted';

/** One way of printing values for all hosts, so that a cell prints the same in each. */
const OPTIONS = { depth: 4, breakLength: 88, maxStringLength: 20_000 } as const;

/** Text of a value as the result of a cell; strings are in quotes. */
export function inspectValue(value: unknown): string {
  return inspect(value, OPTIONS);
}

/** Text of what `console.log` is given: format marks filled in, strings bare. */
export function formatValues(values: readonly unknown[]): string {
  return formatWithOptions(OPTIONS, ...(values as [unknown, ...unknown[]]));
}
