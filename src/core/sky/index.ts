export * from './body-names.js';
export * from './body-text.js';
export * from './apparent-place.js';
export * from './almanac-entry.js';
