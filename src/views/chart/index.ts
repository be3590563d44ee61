export * from './chart-view.js';
export * from './chart-figure.js';
export * from './scene.js';
