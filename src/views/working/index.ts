export * from './working-data.js';
export * from './working-check.js';
export * from './working-text.js';
export * from './working-html.js';
export * from './working-view.js';
export * from './working-inputs.js';
export * from './recompute.js';
export * from './left-out.js';
