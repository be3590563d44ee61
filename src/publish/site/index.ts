export * from './site.js';
export { JUPYTERLITE } from './python.js';
