export * from './data.js';
export * from './finding.js';
export * from './installation.js';
export * from './jupyter.js';
