export * from './student-seed.js';
