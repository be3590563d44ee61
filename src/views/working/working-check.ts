import {
  anything,
  flag,
  list,
  number,
  oneOf,
  optional,
  record,
  text,
  within,
  type Check,
} from '../check.js';
import type { Encoded } from '../inputs/encode.js';
import { ephemerisPieces } from '../inputs/check-pieces.js';
import type { WorkingData } from './working-data.js';

const input = record({
  name: text,
  symbol: optional(text),
  text,
  origin: oneOf('reading', 'given', 'assumed', 'table', 'computed', 'earlier step'),
});

const row = record({
  rule: text,
  title: text,
  kind: oneOf('entry', 'correction', 'rest', 'result'),
  latex: text,
  plain: text,
  figures: text,
  inputs: list(input, 100),
  correctionArcmin: optional(number),
  correction: optional(text),
  running: text,
  isSum: flag,
  runningDeg: optional(number),
  interceptNm: optional(number),
  sigmaArcmin: within(0, 1e9),
  varianceShare: within(0, 1.000001),
  source: text,
  caution: optional(text),
});

/** The values inside are checked where they are read: `Rework.from`. */
const inputs = record({
  procedure: text,
  fields: anything as Check<Encoded>,
  position: optional(anything as Check<Encoded>),
  ephemeris: optional(ephemerisPieces),
});

const fields = record({
  format: oneOf(1),
  title: text,
  rows: list(row, 500),
  value: text,
  sigmaArcmin: within(0, 1e9),
  sigmaUnit: optional(oneOf(' nm', '°')),
  assumed: list(text, 100),
  flags: list(text, 100),
  cautions: list(text, 100),
  inputs: optional(inputs),
  viewId: optional(text),
});

/** Working data out of a notebook file. @throws ViewDataError naming the field that is wrong. */
export function checkWorkingData(value: unknown): WorkingData {
  return fields(value, '') as WorkingData;
}
