export * from './units/index.js';
export * from './working/index.js';
export * from './sky/index.js';
export * from './sextant/index.js';
export * from './line/index.js';
export * from './fix/index.js';
export * from './methods/index.js';
export * from './plan/index.js';
