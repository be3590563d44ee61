export * from './residual-view.js';
export * from './residual-figure.js';
export * from './run-figure.js';
