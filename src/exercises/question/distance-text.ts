import type { Length } from '../../core/units/index.js';
import { EntryError, length } from '../../core/units/index.js';

const AWAY = /(?<![a-z])(?:away|a)\b/i;
const TOWARD = /(?<![a-z])(?:towards?|t)\b/i;
/** An intercept is in nautical miles whatever is written: `8.4 toward`, `8.4 M away`, `8.4T`. */
const MILES_UNSAID = /^([+\-−]?\s*\d+(?:\.\d+)?)\s*M?$/;
const FORM = 'Write 2.3 nm toward or 0.8 nm away.';

/** An intercept with its direction; toward is positive. @throws EntryError when it says neither toward nor away */
export function readIntercept(text: string): Length {
  const [away, toward] = [AWAY.test(text), TOWARD.test(text)];
  if (away && toward)
    throw new EntryError(`Toward or away, not both. ${FORM}`, text, text.search(AWAY));
  const figure = text.replace(AWAY, '').replace(TOWARD, '').trim().replace(MILES_UNSAID, '$1 nm');
  const size = readDistance(figure, FORM, text);
  if (!away && !toward && size.metres !== 0)
    throw new EntryError(`Toward the body or away from it? ${FORM}`, text, text.length);
  if (size.metres < 0)
    throw new EntryError(`Toward or away says the direction; leave the sign out. ${FORM}`, text, 0);
  return away ? size.times(-1) : size;
}

/** A distance; a bare number with nothing after it is refused. @param whole the text to show in a refusal */
export function readDistance(text: string, form = 'Write 13.6 nm.', whole = text): Length {
  const bare = /^[+\-−]?\s*\d+(?:\.\d+)?\s*(?:′|')$/.exec(text);
  try {
    return bare ? length(`${text.replace(/[′']/, '').trim()} nmi`) : length(text);
  } catch (error) {
    if (!(error instanceof EntryError)) throw error;
    throw new EntryError(`${error.message.split('\n')[0] ?? ''} ${form}`, whole);
  }
}

/** `2.3 nm toward`, `0.8 nm away`. */
export function formatIntercept(value: Length): string {
  const nm = Math.abs(value.nauticalMiles).toFixed(1);
  return `${nm} nm ${value.nauticalMiles < 0 ? 'away' : 'toward'}`;
}

export const formatDistance = (value: Length): string => `${value.nauticalMiles.toFixed(1)} nm`;
