export * from './mark-class.js';
export type { CheckedLine, CheckedQuestion, Marked } from './marker.js';
export { readClassList, type ClassList } from './class-list.js';
export { notHandedIn, type ClassRow } from './class-table.js';
export type { ClassSlip, LessonMarks, MarkedFile } from './marks-table.js';
