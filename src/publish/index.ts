export * from './edition.js';
export * from './publish.js';
export { Sandbox, runCells } from './sandbox/index.js';
export { findLeaks } from './source/index.js';
export { writeEdition } from './write/atomic.js';
export * from './mark/index.js';
export * from './reproduce/index.js';
export { PAPER_SIZES, type PaperSize } from './paper/index.js';
export * from './publish-error.js';
