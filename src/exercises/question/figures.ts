import { Angle, Instant, Length } from '../../core/units/index.js';
import type { Figures } from './line.js';
import type { FigureValue } from './figure-value.js';

/** The figures of earlier lines behind typed readers that refuse the wrong kind. */
export function figuresOf(values: ReadonlyMap<string, FigureValue>): Figures {
  const get = <T>(line: string, kind: { readonly name: string }, is: (v: unknown) => v is T): T => {
    const value = values.get(line);
    if (is(value)) return value;
    throw new RangeError(
      value === undefined
        ? `there is no line '${line}' above this one; there are ${[...values.keys()].map((k) => `'${k}'`).join(', ') || 'none'}`
        : `the figure of line '${line}' is not of type ${kind.name}`,
    );
  };
  return {
    angle: (line) => get(line, Angle, (v): v is Angle => v instanceof Angle),
    length: (line) => get(line, Length, (v): v is Length => v instanceof Length),
    instant: (line) => get(line, Instant, (v): v is Instant => v instanceof Instant),
    word: (line) => get(line, String, (v): v is string => typeof v === 'string'),
  };
}
