export * from './bench-view.js';
export type { BenchOptions } from './bench-data.js';
