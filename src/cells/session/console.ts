import { formatValues, inspectValue } from '../values/inspect.js';
import { textTable } from '../values/text-table.js';

type Write = (name: 'stdout' | 'stderr', text: string) => void;

/** A `console` that writes to a cell's output, the same in every host. */
export function makeConsole(write: Write): Partial<Console> {
  let indent = '';
  const counts = new Map<string, number>();
  const timers = new Map<string, number>();
  const print =
    (name: 'stdout' | 'stderr') =>
    (...values: unknown[]) => {
      const text = values.length ? formatValues(values) : '';
      write(name, `${indent}${text.replaceAll('\n', `\n${indent}`)}\n`);
    };
  const out = print('stdout');
  const err = print('stderr');
  const elapsed = (label: string): string =>
    `${label}: ${(performance.now() - (timers.get(label) ?? performance.now())).toFixed(3)}ms`;
  return {
    log: out,
    info: out,
    debug: out,
    warn: err,
    error: err,
    dir: (value: unknown) => out(inspectValue(value)),
    dirxml: out,
    table: (value: unknown, columns?: string[]) => out(textTable(value, columns)),
    trace: (...values: unknown[]) => err(`Trace: ${values.length ? formatValues(values) : ''}`),
    assert: (condition?: boolean, ...values: unknown[]) => {
      if (!condition) err(`Assertion failed${values.length ? `: ${formatValues(values)}` : ''}`);
    },
    group: (...values: unknown[]) => {
      if (values.length) out(...values);
      indent += '  ';
    },
    groupCollapsed: (...values: unknown[]) => {
      if (values.length) out(...values);
      indent += '  ';
    },
    groupEnd: () => {
      indent = indent.slice(2);
    },
    count: (label = 'default') => {
      counts.set(label, (counts.get(label) ?? 0) + 1);
      out(`${label}: ${counts.get(label)}`);
    },
    countReset: (label = 'default') => void counts.delete(label),
    time: (label = 'default') => void timers.set(label, performance.now()),
    timeLog: (label = 'default', ...values: unknown[]) => out(elapsed(label), ...values),
    timeEnd: (label = 'default') => {
      out(elapsed(label));
      timers.delete(label);
    },
  };
}
