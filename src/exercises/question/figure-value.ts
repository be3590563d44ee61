import { Angle, EntryError, Instant, Length } from '../../core/units/index.js';
import { Working } from '../../core/working/index.js';

/** What the figure of a line can be. */
export type FigureValue = Angle | Length | Instant | string;

const refusal = (value: unknown, what: string) =>
  new EntryError(`This figure must be ${what}, not ${typeof value}.`, String(value));

/** @throws EntryError when it is something else */
export function asAngle(value: unknown): Angle {
  if (value instanceof Angle) return value;
  throw refusal(value, 'an angle');
}
/** @throws EntryError when it is something else */
export function asLength(value: unknown): Length {
  if (value instanceof Length) return value;
  throw refusal(value, 'a distance');
}
/** @throws EntryError when it is something else */
export function asInstant(value: unknown): Instant {
  if (value instanceof Instant) return value;
  throw refusal(value, 'a time');
}

/** The figure itself: a working stands for its result. `undefined` for what is no figure at all. */
export function figureValue(entry: unknown): FigureValue | undefined {
  const value = entry instanceof Working ? (entry.value as unknown) : entry;
  if (typeof value === 'string') return value;
  if (value instanceof Angle || value instanceof Length || value instanceof Instant) return value;
  return undefined;
}
