import type { EphemerisSource } from './ephemeris-format.js';
import { engineSolarSystem } from './engine-solar-system.js';
import { seriesSolarSystem } from './series-solar-system.js';
import type { SolarSystem } from './solar-system.js';

let waiting: EphemerisSource | undefined;
let provided: SolarSystem | undefined;
let version = 0;

/**
 * Gives the library an ephemeris file, or a cut of one, to compute from; replaces the one before. Nothing is read
 * until the first place is asked for: a source that is no such file is refused then. With none, or outside its span, astronomy-engine is used
 * and the place says so.
 * @param source undefined takes the one before away
 */
export function provideEphemeris(source: EphemerisSource | undefined): void {
  waiting = source;
  provided = undefined;
  version += 1;
}

/** The ephemeris source given last, if any. */
export const providedEphemeris = (): EphemerisSource | undefined => waiting;

/** Grows whenever another ephemeris is provided; for caches. */
export const ephemerisVersion = (): number => version;

/**
 * What computes places at that time: the ephemeris provided where it reaches, else astronomy-engine.
 * @param tt Julian date TT
 */
export function solarSystemAt(tt: number): SolarSystem {
  if (waiting && !provided) provided = seriesSolarSystem(waiting);
  return provided && tt >= provided.firstJd && tt <= provided.lastJd ? provided : engineSolarSystem;
}

/**
 * An ephemeris held in memory, e.g. embedded in a page. The bytes are looked at when the first place is asked for.
 * @param bytes an ephemeris file, as `cutEphemeris` makes one
 * @param name as cited, `ephemeris cut 2026–2027`
 */
export function ephemerisFromBytes(bytes: Uint8Array, name: string): EphemerisSource {
  return { name, read: (offset, length) => bytes.subarray(offset, offset + length) };
}
