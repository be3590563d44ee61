export * from './view.js';
export * from './mounts.js';
export * from './style.js';
export { loadPlotly } from './plotly.js';
export { loadGrid } from './edit/load-grid.js';
export { loadFormulas } from './formulas.js';
