export { sextantView } from './instrument-view.js';
export type { InstrumentOptions } from './instrument-data.js';
