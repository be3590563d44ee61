export { editLog, type EditOptions } from './edit-view.js';
