// The library for a page or a worker: no ephemeris until the page calls provideEphemeris() with an embedded cut.
export * from './core/index.js';
export * from './log/index.js';
export * from './views/index.js';
export * from './exercises/index.js';
export { magneticVariation } from './magnetic-variation.js';
