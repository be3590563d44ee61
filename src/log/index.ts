export { SightLog, type LogRound, type LogRow } from './sight-log.js';
export { LogReport, type CellFinding, type RefusedRow } from './report.js';
export { Track, type TrackPoint } from './exchange/track.js';
export { logColumns } from './columns/log-columns.js';
export type { LogColumn } from './columns/column.js';
export type { DerivedRow, ReadingRow } from './table/reading-row.js';
export type { CsvOptions } from './csv/write-csv.js';
