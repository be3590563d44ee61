export * from './mark-class.js';
export type { CheckedLine, CheckedQuestion, Marked } from './marker.js';
export type { ClassSlip, MarkedFile } from './marks-table.js';
