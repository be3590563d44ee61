import { EntryError } from '../../core/units/index.js';
import { nearest, plainWord } from '../../core/units/nearest-word.js';

/**
 * Reads one of a few fixed words; capitals, blanks and hyphens do not matter.
 * @throws EntryError listing the words there are and the nearest one
 */
export function wordReader<T>(
  noun: string,
  words: ReadonlyMap<string, T>,
  shown: readonly string[],
) {
  const known = new Map([...words].map(([word, value]) => [plainWord(word), value]));
  return (text: string): T => {
    const found = known.get(plainWord(text));
    if (found !== undefined) return found;
    const near = nearest(text, shown);
    throw new EntryError(
      `That is not a ${noun} known here${near ? `; did you mean ${near}?` : '.'} Write ${listed(shown)}.`,
      text,
    );
  };
}

function listed(words: readonly string[]): string {
  if (words.length > 8)
    return `a name from the list of ${words.length}, such as ${words.slice(0, 3).join(', ')}`;
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}
