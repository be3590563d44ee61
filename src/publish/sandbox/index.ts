export * from './sandbox.js';
export * from './run-cells.js';
