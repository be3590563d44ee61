export * from './sky-events.js';
export * from './horizon-window.js';
export * from './bodies-up.js';
export * from './best-set.js';
