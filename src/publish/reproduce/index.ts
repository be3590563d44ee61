export * from './reproduce.js';
export type { Difference } from './compare.js';
