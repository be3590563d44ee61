export * from './distributions.js';
export * from './random.js';
export * from './fix-options.js';
export * from './flags.js';
export * from './region.js';
export * from './residual.js';
export * from './fix-line.js';
export * from './fix.js';
