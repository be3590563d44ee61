/**
 * The file of Chebyshev series (made by data/make/ephemeris.py), little-endian:
 * 8 bytes `CHEPHEM1`; 4 bytes length of the header; the header, JSON, padded with spaces; then for each body its
 * granules in order of time, each a record of signed integers: component by component, order by order, in the
 * number of bytes `widths` gives for that order. A coefficient is the integer times `quantum`.
 */
export interface SeriesHeader {
  readonly name: string;
  readonly unit: 'AU' | 'km' | 'arcsec';
  readonly components: number;
  /** Julian date (TDB) at which the first granule begins. */
  readonly firstJd: number;
  readonly granuleDays: number;
  readonly granules: number;
  readonly quantum: number;
  /** Bytes of each order's coefficients; its length is the degree + 1. */
  readonly widths: readonly number[];
  /** Of the first granule, counted from the end of the header. */
  readonly offset: number;
  readonly worstError: number;
}
/** The header of an ephemeris file: what it holds, from when to when (TT, Julian dates), and how well it fits. */
export interface EphemerisHeader {
  readonly title: string;
  readonly credit: string;
  readonly source: string;
  readonly script: string;
  readonly auKm: number;
  readonly earthMoonMassRatio: number;
  readonly bodies: readonly SeriesHeader[];
}

/** Bytes of an ephemeris file, wherever they are kept. Reading is synchronous. */
export interface EphemerisSource {
  /** What to call it in a working, e.g. the file name. */
  readonly name: string;
  /** `length` bytes from `offset`, fewer only at the end of the file. */
  read(offset: number, length: number): Uint8Array;
}

const MAGIC = 'CHEPHEM1';
const PREFIX_BYTES = 12;

/** The header of a file and where its records begin. @throws RangeError when the bytes are not such a file. */
export function readHeader(source: EphemerisSource): {
  header: EphemerisHeader;
  dataOffset: number;
} {
  const prefix = source.read(0, PREFIX_BYTES);
  const magic = fromAscii(prefix.subarray(0, 8));
  if (prefix.length < PREFIX_BYTES || magic !== MAGIC)
    throw new RangeError(`${source.name} is not an ephemeris file of this library`);
  const view = new DataView(prefix.buffer, prefix.byteOffset, prefix.byteLength);
  const length = view.getUint32(8, true);
  const bytes = source.read(PREFIX_BYTES, length);
  if (bytes.length < length) throw new RangeError(`${source.name} is cut short`);
  const header = JSON.parse(fromAscii(bytes)) as EphemerisHeader;
  return { header, dataOffset: PREFIX_BYTES + length };
}

/** Header and records put together into the bytes of a file. */
export function writeFile(header: EphemerisHeader, records: readonly Uint8Array[]): Uint8Array {
  let text = JSON.stringify(header);
  const short = (text.length + PREFIX_BYTES) % 16;
  text += ' '.repeat(short === 0 ? 0 : 16 - short);
  const head = toAscii(text);
  const total = records.reduce((sum, r) => sum + r.length, PREFIX_BYTES + head.length);
  const out = new Uint8Array(total);
  out.set(toAscii(MAGIC), 0);
  new DataView(out.buffer).setUint32(8, head.length, true);
  out.set(head, PREFIX_BYTES);
  let at = PREFIX_BYTES + head.length;
  for (const record of records) {
    out.set(record, at);
    at += record.length;
  }
  return out;
}

// The header is plain ASCII, and core has neither TextEncoder nor TextDecoder.
const toAscii = (text: string): Uint8Array => Uint8Array.from(text, (c) => c.charCodeAt(0));
function fromAscii(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return text;
}

/** Bytes of one granule. */
export const recordBytes = (series: SeriesHeader): number =>
  series.components * series.widths.reduce((sum, width) => sum + width, 0);
