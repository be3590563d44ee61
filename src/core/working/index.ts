export * from './working.js';
