const FACTOR = 0x5bd1e995;

/**
 * 32-bit MurmurHash2 of a text's UTF-8 bytes, by which clients name the file of a cell.
 * Source: MurmurHash2 by Austin Appleby (public domain), little-endian variant.
 */
export function murmur2(text: string, seed: number): number {
  const bytes = new TextEncoder().encode(text);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const whole = bytes.length & ~3;
  let hash = seed ^ bytes.length;
  for (let at = 0; at < whole; at += 4) {
    let word = Math.imul(view.getUint32(at, true), FACTOR);
    word = Math.imul(word ^ (word >>> 24), FACTOR);
    hash = Math.imul(hash, FACTOR) ^ word;
  }
  let rest = 0;
  for (let at = bytes.length - 1; at >= whole; at--) rest = (rest << 8) | view.getUint8(at);
  if (whole < bytes.length) hash = Math.imul(hash ^ rest, FACTOR);
  hash = Math.imul(hash ^ (hash >>> 13), FACTOR);
  return (hash ^ (hash >>> 15)) >>> 0;
}
