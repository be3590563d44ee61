import { EntryError } from '../units/errors.js';
import { bodyNames, isBodyName, type BodyName } from './body-names.js';

const key = (text: string) => text.toLowerCase().replace(/[^a-z]/g, '');
const BY_KEY = new Map(bodyNames.map((name) => [key(name), name]));

/**
 * The body of that name, whatever its capitals and spaces. @throws EntryError with the nearest names there are.
 */
export function body(text: string): BodyName {
  if (typeof text === 'string') {
    if (isBodyName(text)) return text;
    const found = BY_KEY.get(key(text));
    if (found) return found;
  }
  const near = nearest(key(String(text)));
  throw new EntryError(
    `There is no body '${String(text)}' here. ${near.length > 0 ? `Did you mean ${near.join(' or ')}?` : ''}`.trim() +
      ' Known are the Sun, Moon, Venus, Mars, Jupiter, Saturn, the 57 selected stars and Polaris.',
    String(text),
  );
}

function nearest(wanted: string): BodyName[] {
  if (wanted.length < 3) return [];
  const limit = Math.max(1, Math.floor(wanted.length / 3));
  return [...BY_KEY]
    .map(([k, name]) => ({ name, distance: k.startsWith(wanted) ? 0 : edits(k, wanted) }))
    .filter((c) => c.distance <= limit)
    .sort((a, b) => a.distance - b.distance)
    .slice(0, 2)
    .map((c) => c.name);
}

/** Edit distance of Levenshtein (1966). */
function edits(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const swap = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(swap, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
