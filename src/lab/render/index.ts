export * from './view.js';
export * from './mount.js';
export * from './style.js';
export { loadPlotly } from './plotly.js';
export { loadGrid } from './edit/load-grid.js';
export { loadFormulas } from './formulas.js';
