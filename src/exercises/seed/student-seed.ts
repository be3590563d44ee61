import { EntryError } from '../../core/units/index.js';

const MAX_NAME = 200;

/** A name as it is compared: without marks of width, case or spacing, so that `ana  Lima` is `Ana Lima`. */
export function plainName(name: string): string {
  if (typeof name !== 'string')
    throw new EntryError("A student's name is text. Write 'Ana Lima'.", String(name));
  const plain = name.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase();
  if (plain === '')
    throw new EntryError("The student's name is missing. Write 'Ana Lima'.", name, 0);
  if (plain.length > MAX_NAME)
    throw new EntryError(`A name has at most ${MAX_NAME} characters.`, name.slice(0, 60));
  return plain;
}

/**
 * The seed of one student's numbers in one exercise: 32 bits of the name, the exercise and the class, by FNV-1a
 * over UTF-8 (G. Fowler, L. C. Noll, K.-P. Vo; IETF draft-eastlake-fnv) and a final mix, so that names that
 * differ in a letter get unrelated numbers. It hides nothing: anyone who knows the name can draw the same numbers.
 * @param exercise which exercise, e.g. `sun-altitude` @param course sets one class or year apart from another
 */
export function studentSeed(student: string, exercise: string, course = ''): number {
  let hash = fnv1a([plainName(student), exercise, course].join('\n'));
  hash = Math.imul(hash ^ (hash >>> 16), 0x21f0aaad);
  hash = Math.imul(hash ^ (hash >>> 15), 0x735a2d97);
  return (hash ^ (hash >>> 15)) >>> 0;
}

/** The 32-bit FNV-1a hash of a text's UTF-8 bytes, unsigned. */
export function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (const byte of utf8(text)) hash = Math.imul(hash ^ byte, 0x01000193);
  return hash >>> 0;
}

/** UTF-8 without TextEncoder, which the core's language level does not promise everywhere. */
function utf8(text: string): number[] {
  return [...encodeURIComponent(text).matchAll(/%([0-9A-F]{2})|([^%])/g)].map((m) =>
    m[1] === undefined ? (m[2] ?? '').charCodeAt(0) : parseInt(m[1], 16),
  );
}

/** Digits and letters that are not taken for one another when read aloud or copied by hand. */
const LETTERS = '23456789ABCDEFGHJKLMNPQRSTUVWXYZ';

/** A short code of the seed, `K7P-3QD2`: shows on paper and screen whose numbers were answered. */
export function seedCode(seed: number): string {
  let rest = seed >>> 0;
  let code = '';
  for (let i = 0; i < 7; i++) {
    code = LETTERS.charAt(rest & 31) + code;
    rest >>>= 5;
  }
  return `${code.slice(0, 3)}-${code.slice(3)}`;
}
