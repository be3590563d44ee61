import { providedEphemeris, provideEphemeris, type EphemerisSource } from '../../core/sky/index.js';

/** The few bytes of an ephemeris file that one view needs, so that it works out places without file or network. */
export interface EphemerisPieces {
  readonly name: string;
  /** Offset in the file and the bytes from there, base64. */
  readonly pieces: readonly (readonly [offset: number, base64: string])[];
}

function toBase64(bytes: Uint8Array): string {
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary);
}

function fromBase64(text: string): Uint8Array {
  return Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
}

/**
 * Runs `work`, noting which bytes of the ephemeris it reads.
 * @returns the bytes read; undefined when no ephemeris file is provided
 */
export function ephemerisUsedBy(work: () => void): EphemerisPieces | undefined {
  const source = providedEphemeris();
  if (!source) return undefined;
  const read = new Map<number, Uint8Array>();
  const recording: EphemerisSource = {
    name: source.name,
    read(offset, length) {
      const bytes = source.read(offset, length);
      if (bytes.length > (read.get(offset)?.length ?? 0)) read.set(offset, bytes);
      return bytes;
    },
  };
  provideEphemeris(recording);
  try {
    work();
  } finally {
    provideEphemeris(source);
  }
  const pieces = [...read].map(([offset, bytes]) => [offset, toBase64(bytes)] as const);
  return { name: source.name, pieces };
}

/** An ephemeris that holds these pieces only; reading elsewhere gives no bytes. */
export function ephemerisFromPieces({ name, pieces }: EphemerisPieces): EphemerisSource {
  const held = pieces.map(([offset, text]) => ({ offset, bytes: fromBase64(text) }));
  return {
    name,
    read(offset, length) {
      const piece = held.find(
        (p) => p.offset <= offset && p.offset + p.bytes.length >= offset + length,
      );
      const from = offset - (piece?.offset ?? 0);
      return piece ? piece.bytes.slice(from, from + length) : new Uint8Array(0);
    },
  };
}

/** Runs `work` with places computed from `source`; what was provided before is provided again after. */
export function withEphemeris<T>(source: EphemerisSource | undefined, work: () => T): T {
  if (!source) return work();
  const before = providedEphemeris();
  if (before !== source) provideEphemeris(source);
  try {
    return work();
  } finally {
    // A page has no other ephemeris to go back to: keeping ours spares decoding it again at each move.
    if (before) provideEphemeris(before);
  }
}
