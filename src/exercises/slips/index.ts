export * from './sight-mistakes.js';
export * from './figure-slips.js';
export * from './term-slips.js';
export * from './diagnose.js';
