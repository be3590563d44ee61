import { editDistance } from '../units/nearest-word.js';
import { EntryError } from '../units/errors.js';
import { bodyNames, isBodyName, type BodyName } from './body-names.js';

const key = (text: string) => text.toLowerCase().replace(/[^a-z]/g, '');
/** Short forms that almanacs print, and other spellings in use (from memory). */
const ALSO: Readonly<Record<string, BodyName>> = {
  rigilkent: 'Rigil Kentaurus',
  rigelkentaurus: 'Rigil Kentaurus',
  alphacentauri: 'Rigil Kentaurus',
  kausaust: 'Kaus Australis',
  zubenubi: 'Zubenelgenubi',
  alnair: "Al Na'ir",
  polestar: 'Polaris',
  beteigeuze: 'Betelgeuse',
};
const BY_KEY = new Map<string, BodyName>([
  ...bodyNames.map((name) => [key(name), name] as const),
  ...Object.entries(ALSO),
]);

/**
 * The body of that name, whatever its capitals and spaces, or by an almanac's short form (`Rigil Kent.`, `Zuben'ubi`).
 * @throws EntryError with the nearest names there are.
 */
export function body(text: string): BodyName {
  if (typeof text === 'string') {
    if (isBodyName(text)) return text;
    const found = BY_KEY.get(key(text.replace(/^\s*the\s+/i, '')));
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
    .map(([k, name]) => ({ name, distance: k.startsWith(wanted) ? 0 : editDistance(k, wanted) }))
    .filter((c) => c.distance <= limit)
    .sort((a, b) => a.distance - b.distance)
    .map((c) => c.name)
    .filter((name, i, all) => all.indexOf(name) === i)
    .slice(0, 2);
}
