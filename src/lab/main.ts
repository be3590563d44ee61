export { makePlugins } from './jupyter/plugins.js';
