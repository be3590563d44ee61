export * from './core/index.js';
export * from './log/index.js';
export * from './views/index.js';
export * from './exercises/index.js';
