import { EntryError } from '../units/errors.js';
import { duration } from '../units/quantity-text.js';

const ERROR_FORM = 'Write the error as 3 s slow, 1 m 12 s fast or none.';
const RATE_FORM = 'Write the rate as 0.4 s a day gaining, 1.2 s a day losing or none.';

/** Error of a watch in seconds, fast +: from `3 s slow`, `1 m 12 s fast`. @throws EntryError without fast or slow */
export function watchError(text: string): number {
  if (/^\s*(?:none|nil)\s*$/i.test(text)) return 0;
  const m = /^\s*(.+?)\s+(fast|slow)\s*$/i.exec(text);
  if (!m?.[1] || /^[+\-−]/.test(m[1]))
    throw new EntryError(`Is the watch fast or slow? ${ERROR_FORM}`, String(text), 0);
  const seconds = duration(m[1]).seconds;
  return m[2]?.toLowerCase() === 'fast' ? seconds : -seconds;
}

/** Rate of a watch in seconds a day, gaining +: from `0.4 s a day gaining`, `losing 1.2 s/day`. @throws EntryError */
export function watchRate(text: string): number {
  if (/^\s*(?:none|nil)\s*$/i.test(text)) return 0;
  const way = /\b(gaining|gains|losing|loses)\b/i.exec(text)?.[1]?.toLowerCase();
  const figure = /(\d+(?:\.\d+)?)\s*s(?:ec(?:onds?)?)?\s*(?:\/|a |per )\s*d(?:ay)?\b/i.exec(text);
  if (!way || !figure?.[1] || /[+\-−]\s*\d/.test(text))
    throw new EntryError(
      `Is the watch gaining or losing, and how much a day? ${RATE_FORM}`,
      String(text),
      0,
    );
  return way.startsWith('g') ? Number(figure[1]) : -Number(figure[1]);
}
