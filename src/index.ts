import { provideEphemeris } from './core/index.js';
import { EphemerisFile } from './ephemeris-file.js';

export * from './core/index.js';
export * from './log/index.js';
export * from './views/index.js';
export * from './exercises/index.js';
export { EphemerisFile } from './ephemeris-file.js';
export { magneticVariation } from './magnetic-variation.js';
export { readText, saveText } from './text-files.js';

// In Node the ephemeris lies beside the code; nothing is read before the first place is asked for.
provideEphemeris(new EphemerisFile(new URL('../data/ephemeris-1950-2053.bin', import.meta.url)));
