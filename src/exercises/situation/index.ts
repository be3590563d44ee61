export * from './passage.js';
export * from './sky.js';
export * from './instrument.js';
export * from './draw.js';
export * from './stars.js';
