export * from './runner/index.js';
