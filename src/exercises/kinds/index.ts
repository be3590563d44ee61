export * from './exercise-options.js';
export * from './index-check.js';
export * from './sun-altitude.js';
export * from './noon-latitude.js';
export * from './star-round.js';
export * from './running-fix.js';
export * from './passage-to-judge.js';
