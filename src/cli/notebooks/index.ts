export * from './destination.js';
export * from './execute.js';
export * from './find-notebooks.js';
export * from './notebook-file.js';
export * from './settings.js';
