import { inspectValue } from './inspect.js';

/** A table of rows in text, as `console.table` prints it; values that are no rows print as they are. */
export function textTable(value: unknown, columns?: readonly string[]): string {
  if (typeof value !== 'object' || value === null) return inspectValue(value);
  const entries = value instanceof Map ? [...value] : Object.entries(value);
  const keys = new Set<string>(columns);
  let hasPlain = false;
  for (const [, row] of entries) {
    if (typeof row !== 'object' || row === null) hasPlain = true;
    else if (!columns) for (const key of Object.keys(row as object)) keys.add(key);
  }
  const head = ['(index)', ...keys, ...(hasPlain ? ['Values'] : [])];
  const body = entries.map(([index, row]) => cellsOf(String(index), row, [...keys], hasPlain));
  return drawTable([head, ...body]);
}

function cellsOf(index: string, row: unknown, keys: string[], hasPlain: boolean): string[] {
  const isRow = typeof row === 'object' && row !== null;
  const cells = keys.map((key) =>
    isRow && key in row ? inspectValue((row as Record<string, unknown>)[key]) : '',
  );
  return [index, ...cells, ...(hasPlain ? [isRow ? '' : inspectValue(row)] : [])];
}

function drawTable(rows: readonly (readonly string[])[]): string {
  const count = rows[0]?.length ?? 0;
  const widths = Array.from({ length: count }, (_, i) =>
    Math.max(...rows.map((row) => [...(row[i] ?? '')].length)),
  );
  const rule = (left: string, middle: string, right: string): string =>
    left + widths.map((w) => '─'.repeat(w + 2)).join(middle) + right;
  const line = (row: readonly string[]): string =>
    `│${row.map((cell, i) => ` ${cell}${' '.repeat((widths[i] ?? 0) - [...cell].length)} `).join('│')}│`;
  const [head = [], ...body] = rows.map(line);
  return [rule('┌', '┬', '┐'), head, rule('├', '┼', '┤'), ...body, rule('└', '┴', '┘')]
    .flat()
    .join('\n');
}
