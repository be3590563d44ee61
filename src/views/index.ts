import './install.js';
export * from './mime.js';
export * from './working/index.js';
