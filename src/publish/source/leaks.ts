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
  const forms = secrets.map((secret) => ({ secret, forms: encodedForms(secret.text) }));
  const leaks: Leak[] = [];
  for (const { name, bytes } of files) {
    const texts = [...readings(Buffer.from(bytes))];
    for (const { secret, forms: ways } of forms) {
      const form = formIn(texts, ways);
      if (form !== undefined) leaks.push({ file: name, secret, form });
    }
  }
  return leaks;
}

/** The form in which a secret stands in one of the readings of a file, if it does. */
function formIn(
  texts: readonly { readonly text: string; readonly where: string }[],
  ways: ReadonlyMap<string, string>,
): string | undefined {
  for (const { text, where } of texts)
    for (const [form, way] of ways)
      if (way.length >= LEAST_FORM && text.includes(way)) return form + where;
  return undefined;
}

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
