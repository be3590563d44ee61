export * from './intervals.js';
export * from './line-fit.js';
export * from './run-checks.js';
export * from './outliers.js';
export * from './control-chart.js';
export * from './mixed-model.js';
