import path from 'node:path';

/** The checkout. */
export const ROOT = path.resolve(import.meta.dirname, '..', '..');
