export * from './view.js';
export { VIEW_TARGET } from './kernel-channel.js';
export * from './to-display.js';
