export {
  notebookText,
  runNotebook,
  type Failure,
  type RunOptions,
  type RunResult,
} from './run-notebook.js';
export type { Cell, Notebook, Output } from './notebook.js';
export { UnknownParameter } from './parameters.js';
