import {
  formatAngle,
  formatBearing,
  formatCorrection,
  formatLatitude,
  formatLongitude,
} from '../../core/units/index.js';
import * as print from '../columns/print-value.js';
import type { LogRow } from '../sight-log.js';

/** How one column of a log is shown: head, unit in the head, and the text of a row. */
export interface ShownColumn {
  readonly key: keyof LogRow;
  readonly head: string;
  /** Unit of every figure in the column; empty where the notation carries it. */
  readonly unit: string;
  readonly align: 'left' | 'right' | 'centre';
  readonly text: (value: never) => string;
  /** Shown unless other columns are asked for; the rest are slow to work out. */
  readonly usual: boolean;
}

const word = (value: string) => value;
const figure = (decimals: number) => (value: number) => value.toFixed(decimals).replace('-', '−');
const signed = (value: number) => formatCorrection(value, 1).replace('′', '');
const altitude = (value: number) => formatAngle(value, 1, 2);
const indexSide = (value: number) => print.indexError(value).replace(' the arc', '');

type Spec = readonly [
  keyof LogRow,
  string,
  string,
  'left' | 'right',
  (value: never) => string,
  boolean?,
];

const SPECS: readonly Spec[] = [
  ['round', 'round', '', 'left', word],
  ['sight', 'sight', '', 'left', word],
  ['utcMs', 'UTC', '', 'left', print.utc],
  ['watchText', 'watch time', '', 'left', word],
  ['watchErrorS', 'watch error', '', 'right', print.watchError],
  ['body', 'body', '', 'left', word],
  ['limb', 'limb', '', 'left', word],
  ['readingDeg', 'reading', '', 'right', altitude],
  ['observer', 'observer', '', 'left', word],
  ['instrument', 'sextant', '', 'left', word],
  ['indexErrorArcmin', 'index error', '', 'right', indexSide],
  ['horizon', 'horizon', '', 'left', word],
  ['horizonDistanceM', 'horizon distance', 'm', 'right', figure(0)],
  ['eyeHeightM', 'height of eye', 'm', 'right', figure(1)],
  ['temperatureC', 'air', '°C', 'right', figure(0)],
  ['pressureHpa', 'pressure', 'hPa', 'right', figure(0)],
  ['positionKind', 'position', '', 'left', word],
  ['latDeg', 'latitude', '', 'right', formatLatitude],
  ['lonDeg', 'longitude', '', 'right', formatLongitude],
  ['courseDeg', 'course', '', 'right', formatBearing],
  ['speedKn', 'speed', 'kn', 'right', figure(1)],
  ['seaState', 'sea', '', 'right', figure(0)],
  ['hoDeg', 'Ho', '', 'right', altitude],
  ['hcDeg', 'Hc', '', 'right', altitude],
  ['znDeg', 'Zn', '', 'right', formatBearing],
  ['interceptNm', 'intercept', 'nm, + toward', 'right', signed],
  ['residualArcmin', 'residual', '′', 'right', signed],
  ['reference', 'residual against', '', 'left', word, false],
  ['sigmaArcmin', 'σ', '′', 'right', figure(1), false],
  ['influenceNm', 'moves the fix', 'nm', 'right', figure(1), false],
  ['accepted', 'used', '', 'left', (value: boolean) => (value ? 'yes' : 'no')],
  ['reason', 'reason', '', 'left', word],
  ['remarks', 'remarks', '', 'left', word],
];

export const shownColumns: readonly ShownColumn[] = SPECS.map(
  ([key, head, unit, align, text, usual = true]) => ({ key, head, unit, align, text, usual }),
);
