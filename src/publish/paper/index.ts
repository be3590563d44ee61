export * from './paper-questions.js';
export * from './plotting-sheet.js';
export * from './paper.js';
