export { cellNames } from './compile/cell-names.js';
export { CellSession, type Outcome, type SessionOptions } from './session/cell-session.js';
export { compileCell } from './compile/compile-cell.js';
export { compileExpression } from './compile/compile-expression.js';
export { NameLedger } from './compile/name-ledger.js';
export { CellSyntaxError } from './errors/cell-syntax-error.js';
export type { MappedCell } from './session/known-cells.js';
export type { CellHost, Run } from './session/host.js';
export type { CellEvent, CommContent } from './session/events.js';
export { CurrentRun } from './session/current-run.js';
export { limitOutput } from './session/output-limit.js';
export { makeConsole } from './session/console.js';
export { makeDisplay, type Display, type DisplayOptions } from './session/display.js';
export { Comm, Comms, type CommMessage } from './session/comms.js';
export { KeyboardInterrupt, type CellError } from './errors/cell-error.js';
export { bundleOf, type Bundle } from './values/bundle.js';
export { formatValues, inspectValue } from './values/inspect.js';
export { remoteTypeEngine, serveTypeEngine, type Line } from './types/remote-type-engine.js';
export { GLOBALS_DECLARATION } from './types/globals-declaration.js';
export { LateTypeEngine } from './types/late-type-engine.js';
export { LanguageServiceEngine } from './types/language-service-engine.js';
export type { TypeMode } from './types/type-mode.js';
export { inspectionOf } from './types/type-engine.js';
export type {
  Completion,
  Completions,
  Diagnostic,
  Inspection,
  TypeEngine,
} from './types/type-engine.js';
