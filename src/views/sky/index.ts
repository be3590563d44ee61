export { skyView } from './sky-view.js';
export type { SkyOptions } from './sky-data.js';
