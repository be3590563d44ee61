import { EntryError } from '../../core/units/index.js';

const plain = (text: string) => text.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase();

/** The one of the given words that was written, whatever its capitals. @throws EntryError listing the words */
export function readChoice(text: string, choices: readonly string[]): string {
  const found = choices.find((c) => plain(c) === plain(text));
  if (found !== undefined) return found;
  throw new EntryError(
    `That is not one of the words to choose from. Write ${choices.map((c) => `'${c}'`).join(', ')}.`,
    text,
  );
}
