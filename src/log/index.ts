export { SightLog, type LogRound, type LogRow } from './sight-log.js';
export { LogReport, type CellFinding, type RefusedRow } from './report.js';
export { Track, type TrackPoint } from './exchange/track.js';
export { logColumns } from './columns/log-columns.js';
export type { LogColumn } from './columns/column.js';
export type { DerivedRow, ReadingRow } from './table/reading-row.js';
export type { CsvOptions } from './csv/write-csv.js';
export {
  logTable,
  type LogTableData,
  type LogTableOptions,
  type LogTableRow,
} from './display/log-table.js';
export {
  simulateReadings,
  evenTimes,
  type Simulation,
  type SimulationFields,
} from './simulate/simulate-readings.js';
export { simulatePracticeAfternoon, type SimulatedLog } from './simulate/practice-afternoon.js';
export { simulatePassage, type SimulatedPassage } from './simulate/passage.js';
export type { SimulatedReading, SimulatedSlip } from './simulate/truth.js';
