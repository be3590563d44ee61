import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { cutEphemeris } from '../../src/core/sky/index.js';
import { EphemerisFile } from '../../src/ephemeris-file.js';

/** The ephemeris of one year, as a published page carries it. */
export function yearCut(year: number): Uint8Array {
  const file = path.resolve('data', 'ephemeris-1950-2053.bin');
  return cutEphemeris(new EphemerisFile(pathToFileURL(file)), year, year);
}
