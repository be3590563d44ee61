export * from './working.js';
export * from './subject.js';
