import { EntryError } from '../../core/units/index.js';
import { plainWord } from '../../core/units/nearest-word.js';

const plain = (text: string) => text.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase();

/** The one of the given words that was written, whatever its capitals. @throws EntryError listing the words */
export function readChoice(text: string, choices: readonly string[]): string {
  // Al Nair, Al Na’ir and Al Na'ir are one star: marks and blanks count only where words differ by nothing else.
  const bare = choices.filter((c) => plainWord(c) !== '' && plainWord(c) === plainWord(text));
  const found =
    choices.find((c) => plain(c) === plain(text)) ?? (bare.length === 1 ? bare[0] : undefined);
  if (found !== undefined) return found;
  throw new EntryError(
    `That is not one of the words to choose from. Write one of these: ${choices.join(', ')}.`,
    text,
  );
}
