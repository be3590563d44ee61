export * from './standards.js';
export * from './tolerance.js';
