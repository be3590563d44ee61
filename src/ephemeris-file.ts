import fs from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { EphemerisSource } from './core/sky/index.js';

/** Bytes are read in pages of this size, so that a sight costs a few and a century is read once. */
const PAGE_BYTES = 4096;

/** An ephemeris file on disk, opened at the first place asked for; only the pages that are needed are read. */
export class EphemerisFile implements EphemerisSource {
  readonly name: string;
  /** Bytes read from disk so far. */
  bytesRead = 0;
  readonly #pages = new Map<number, Uint8Array>();
  #descriptor: number | undefined;

  /** @param url of the file, `new URL('…', import.meta.url)` */
  constructor(private readonly url: URL) {
    this.name = decodeURIComponent(url.pathname.split('/').at(-1) ?? '').replace(/\.bin$/, '');
  }

  read(offset: number, length: number): Uint8Array {
    const first = Math.floor(offset / PAGE_BYTES);
    const last = Math.floor((offset + length - 1) / PAGE_BYTES);
    const start = offset - first * PAGE_BYTES;
    if (first === last) return this.#page(first).subarray(start, start + length);
    const out = new Uint8Array((last - first + 1) * PAGE_BYTES);
    let filled = 0;
    for (let i = first; i <= last; i++) {
      const page = this.#page(i);
      out.set(page, filled);
      filled += page.length;
    }
    return out.subarray(start, Math.min(start + length, filled));
  }

  #page(index: number): Uint8Array {
    const known = this.#pages.get(index);
    if (known) return known;
    this.#descriptor ??= fs.openSync(fileURLToPath(this.url), 'r');
    const page = new Uint8Array(PAGE_BYTES);
    const count = fs.readSync(this.#descriptor, page, 0, PAGE_BYTES, index * PAGE_BYTES);
    this.bytesRead += count;
    const filled = page.subarray(0, count);
    this.#pages.set(index, filled);
    return filled;
  }
}
