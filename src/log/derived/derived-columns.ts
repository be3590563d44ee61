import type { CellValue } from '../columns/column.js';
import type { Track } from '../exchange/track.js';
import { LazyColumn } from '../table/lazy-column.js';
import { altitudes, type Altitudes } from './altitudes.js';
import { references } from './references.js';
import { influences } from './influences.js';
import { sigmas } from './sigmas.js';

type Columns = Record<string, ArrayLike<CellValue>>;

/** Columns of a log that the derived ones are worked from: while they stay, the derived ones stay. */
export const inputKeys = [
  'utcMs',
  'watchMs',
  'watchErrorS',
  'body',
  'limb',
  'readingDeg',
  'indexErrorArcmin',
  'horizon',
  'horizonDistanceM',
  'eyeHeightM',
  'temperatureC',
  'pressureHpa',
  'positionKind',
  'latDeg',
  'lonDeg',
  'courseDeg',
  'speedKn',
  'statedSigmaArcmin',
  'round',
  'sight',
  'accepted',
] as const;

/** The derived columns of `DerivedRow`, each worked out when first looked at. */
export function derivedColumns(columns: Columns, track: Track | null) {
  const rows = columns['utcMs']?.length ?? 0;
  const once = <T>(work: () => T): (() => T) => {
    let kept: { value: T } | undefined;
    return () => (kept ??= { value: work() }).value;
  };
  const alt = once(() => altitudes(columns, rows));
  const ref = once(() => references(columns, rows, alt(), track));
  const column = (values: () => ArrayLike<number>) =>
    new LazyColumn<number | null>(rows, () =>
      Array.from(values(), (v) => (Number.isNaN(v) ? null : v)),
    );
  return {
    hoDeg: column(() => alt().hoDeg),
    hcDeg: column(() => alt().hcDeg),
    znDeg: column(() => alt().znDeg),
    interceptNm: column(() => intercepts(alt())),
    residualArcmin: column(() => ref().residualArcmin),
    reference: new LazyColumn<string | null>(rows, () => ref().reference),
    sigmaArcmin: column(() => sigmas(columns, rows)),
    influenceNm: column(() => influences(columns, rows)),
  };
}

/** Ho − Hc in nautical miles: one minute of arc is one mile. */
function intercepts({ hoDeg, hcDeg }: Altitudes): Float64Array {
  return hoDeg.map((ho, i) => (ho - (hcDeg[i] ?? NaN)) * 60);
}
