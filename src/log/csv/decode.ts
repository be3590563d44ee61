/** Text of a file and, where a choice had to be made, what was chosen. */
export interface DecodedText {
  readonly text: string;
  readonly notes: readonly string[];
}

/**
 * Turns the bytes of a file into text: UTF-8, UTF-16 with a byte-order mark, else Windows-1252, which is said in
 * a note. Text passes through. A byte-order mark is taken off.
 */
export function decodeText(input: string | Uint8Array): DecodedText {
  if (typeof input === 'string') return { text: input.replace(/^\uFEFF/, ''), notes: [] };
  const bom = (input[0] ?? 0) * 256 + (input[1] ?? 0);
  if (bom === 0xfffe || bom === 0xfeff) {
    const encoding = bom === 0xfffe ? 'utf-16le' : 'utf-16be';
    return {
      text: new TextDecoder(encoding).decode(input),
      notes: [`The file was read as ${encoding.toUpperCase()}, as its first bytes say.`],
    };
  }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(input), notes: [] };
  } catch {
    return {
      text: new TextDecoder('windows-1252').decode(input),
      notes: [
        'The file is not UTF-8; it was read as Windows-1252. Check letters with accents and the degree sign.',
      ],
    };
  }
}
