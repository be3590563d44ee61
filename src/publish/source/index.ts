export * from './roles.js';
export * from './solution-marks.js';
export * from './student-edition.js';
export * from './secrets.js';
export * from './encoded-forms.js';
export * from './leaks.js';
export * from './edition-facts.js';
export * from './expected-figures.js';
