export * from './verdict.js';
export * from './check.js';
export * from './check-failed.js';
export * from './feedback.js';
export * from './marks-run.js';
export * from './on-checked.js';
export * from './answer-json.js';
