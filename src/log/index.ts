import './display/install.js';

export { SightLog, type LogRound, type LogRow } from './sight-log.js';
export { LogReport, type CellFinding, type RefusedRow } from './report.js';
export { Track, type TrackPoint } from './exchange/track.js';
export { Amendments, type Correction, type Entries, type Which } from './amend/amendments.js';
export type { Corrected } from './amend/amendment.js';
export type { EntryName } from './amend/entry-names.js';
export type { DateOrder } from './csv/date-order.js';
export type { HeadNames } from './csv/head.js';
export type { CsvReading } from './csv/read-csv.js';
export { logColumns } from './columns/log-columns.js';
export type { CellValue, LogColumn } from './columns/column.js';
export type { HorizonWord, LimbWord, PositionKind } from './columns/log-words.js';
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
export { simulatePracticeAfternoon } from './simulate/practice-afternoon.js';
export type { SimulatedLog } from './simulate/simulated-log.js';
export { simulatePassage, type SimulatedPassage } from './simulate/passage.js';
export { simulateNoonRound } from './simulate/noon-round.js';
export { simulateMoonAndPlanets } from './simulate/moon-and-planets.js';
export { simulateWinterClass } from './simulate/winter-class.js';
export { simulateLunarDistances, type SimulatedDistances } from './simulate/lunar-distances.js';
export type { SimulatedReading, SimulatedSlip } from './simulate/truth.js';
export {
  practiceSession,
  type Outlier,
  type PracticeFigures,
  PracticeSession,
} from './analysis/practice-session.js';
export type { PracticePart } from './analysis/practice-sentences.js';
export type { Explanation } from './analysis/explanations.js';
export type { JudgedReading } from './analysis/judged.js';
export type { NamedSlip } from './analysis/name-slips.js';
export type { RunSlope } from './analysis/run-slopes.js';
export {
  passageQuality,
  type InfluentialSight,
  type PassageFigures,
  PassageQuality,
} from './analysis/passage-quality.js';
export type { Factor, FactorLevel, FactorName } from './analysis/passage-factors.js';
export type { PassageFix, PassageFixes } from './analysis/passage-fixes.js';
export type { IndexHistory, SessionMean, WatchHistory } from './analysis/passage-history.js';
export type { PassageModel, PassageTerm } from './analysis/passage-model.js';
export type { ReportSection } from './analysis/passage-report.js';
export {
  controlChart,
  lineFit,
  meanEstimate,
  mixedModel,
  normalityCheck,
  runsCheck,
  scatterEstimate,
  fractionEstimate,
  type CheckResult,
  type ControlChart,
  type ControlPoint,
  type Estimate,
  type LineFit,
  type MixedData,
  type MixedFit,
} from './statistics/index.js';
export { toGeoJson, type Mapped } from './exchange/geojson.js';
export { reportHtml } from './display/report-html.js';
export { toGpx } from './exchange/write-gpx.js';
export { estimateText } from './analysis/words.js';
