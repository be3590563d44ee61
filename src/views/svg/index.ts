export * from './svg-node.js';
export * from './inks.js';
