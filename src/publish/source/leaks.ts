import zlib from 'node:zlib';
import { encodedForms } from './encoded-forms.js';
import type { Secret } from './secrets.js';

/** A secret found in a file. */
export interface Leak {
  readonly file: string;
  readonly secret: Secret;
  /** How it stood there: `plain`, `base64, place 1`, `plain in a packed part`. */
  readonly form: string;
}

/** Looks for every secret, in every form, in every file, and inside parts of files that are packed. */
export function findLeaks(
  files: Iterable<{ readonly name: string; readonly bytes: Uint8Array }>,
  secrets: readonly Secret[],
): Leak[] {
  const search = new FormSearch(secrets);
  const leaks: Leak[] = [];
  for (const { name, bytes } of files) {
    const found = new Map<number, string>();
    for (const { text, where } of readings(Buffer.from(bytes)))
      for (const [secret, form] of search.in(text))
        if (!found.has(secret)) found.set(secret, form + where);
    secrets.forEach((secret, i) => {
      const form = found.get(i);
      if (form !== undefined) leaks.push({ file: name, secret, form });
    });
  }
  return leaks;
}

interface Sought {
  readonly secret: number;
  /** Its place among the forms of the secret, and their name and text. */
  readonly order: number;
  readonly form: string;
  readonly way: string;
}

/** Looks for all forms of all secrets in one pass over a text: by their first letters, then whole. */
class FormSearch {
  readonly #byStart = new Map<string, Sought[]>();
  readonly #starts = new Uint8Array(1 << 16);

  constructor(secrets: readonly Secret[]) {
    secrets.forEach((secret, i) => {
      [...encodedForms(secret.text)].forEach(([form, way], order) => {
        if (way.length < LEAST_FORM) return;
        const start = way.slice(0, LEAST_FORM);
        this.#starts[startKey(way, 0)] = 1;
        const others = this.#byStart.get(start) ?? [];
        this.#byStart.set(start, [...others, { secret: i, order, form, way }]);
      });
    });
  }

  /** Secrets that stand in a text, by number, each with the first of its forms that does. */
  in(text: string): ReadonlyMap<number, string> {
    const found = new Map<number, Sought>();
    for (let at = 0; at + LEAST_FORM <= text.length; at++) {
      if (this.#starts[startKey(text, at)] === 0) continue;
      for (const sought of this.#byStart.get(text.slice(at, at + LEAST_FORM)) ?? [])
        if (
          sought.order < (found.get(sought.secret)?.order ?? Infinity) &&
          text.startsWith(sought.way, at)
        )
          found.set(sought.secret, sought);
    }
    return new Map([...found].map(([secret, { form }]) => [secret, form]));
  }
}

/** A number from 0 to 65535 made of three letters. */
const startKey = (text: string, at: number): number =>
  (text.charCodeAt(at) * 961 + text.charCodeAt(at + 1) * 31 + text.charCodeAt(at + 2)) & 0xffff;

/** A shorter one stands by chance in any long file. */
const LEAST_FORM = 6;
const BASE64 = /[A-Za-z0-9+/_-]{48,}={0,2}/g;
const MOST_UNPACKED = 64 << 20;

/** A file as text, as bytes, and every packed part of it unpacked. */
function* readings(bytes: Buffer): Generator<{ text: string; where: string }> {
  const text = bytes.toString('utf8');
  yield { text, where: '' };
  yield { text: bytes.toString('latin1'), where: '' };
  for (const part of unpacked(bytes)) yield { text: part, where: ' in a packed file' };
  for (const [run] of text.matchAll(BASE64)) {
    const inside = Buffer.from(run, 'base64');
    yield { text: inside.toString('utf8'), where: ' in a base64 part' };
    for (const part of unpacked(inside)) yield { text: part, where: ' in a packed part' };
  }
}

/** Packings told by their first bytes: gzip (RFC 1952) and zlib (RFC 1950). */
function* unpacked(bytes: Buffer): Generator<string> {
  const unpack =
    bytes[0] === 0x1f && bytes[1] === 0x8b
      ? zlib.gunzipSync
      : bytes[0] === 0x78
        ? zlib.inflateSync
        : undefined;
  try {
    if (unpack) yield unpack(bytes, { maxOutputLength: MOST_UNPACKED }).toString('utf8');
  } catch {
    // It only began like a packed file.
  }
}
