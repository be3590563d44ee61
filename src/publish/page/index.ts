export * from './markdown.js';
export * from './still-html.js';
export * from './page-cells.js';
export * from './page-parts.js';
export * from './one-file-page.js';
