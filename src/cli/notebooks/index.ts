export * from './destination.js';
export * from './find-notebooks.js';
export * from './notebook-file.js';
