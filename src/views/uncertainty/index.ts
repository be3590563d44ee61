export * from './uncertainty-view.js';
