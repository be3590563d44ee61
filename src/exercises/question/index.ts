export * from './figure-value.js';
export * from './quantity.js';
export * from './form-of-line.js';
export * from './line.js';
export * from './figures.js';
export * from './question.js';
