export * from './errors.js';
export * from './angle.js';
export * from './angle-format.js';
export * from './scalar.js';
