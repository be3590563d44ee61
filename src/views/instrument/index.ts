export * from './instrument-view.js';
