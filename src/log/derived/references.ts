import { altitudeKernel } from '../../core/line/altitude-kernel.js';
import type { CellValue } from '../columns/column.js';
import type { Track } from '../exchange/track.js';
import type { Altitudes } from './altitudes.js';
import { roundPlaces } from './round-fixes.js';

type Columns = Record<string, ArrayLike<CellValue>>;
interface Place {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/**
 * Residual of each reading, Ho − Hc in minutes of arc, and what it is taken against: the track where it says where
 * the vessel was, else the known position of the row, else the fix of the round; NaN where there is none of these.
 */
export function references(
  columns: Columns,
  rows: number,
  altitudes: Altitudes,
  track: Track | null,
): { residualArcmin: Float64Array; reference: (string | null)[] } {
  const residualArcmin = new Float64Array(rows).fill(NaN);
  const reference = new Array<string | null>(rows).fill(null);
  const altAz = { altDeg: 0, azDeg: 0 };
  let fixed: ReadonlyMap<number, Place> | undefined;
  for (let i = 0; i < rows; i++) {
    const found =
      named('track', track?.placeAt(columns['utcMs']?.[i] as number)) ??
      named('known position', knownPlace(columns, i)) ??
      named('fix of the round', (fixed ??= roundPlaces(columns, rows)).get(i));
    if (!found) continue;
    const { place } = found;
    altitudeKernel(
      place.latDeg,
      place.lonDeg,
      altitudes.ghaDeg[i] ?? NaN,
      altitudes.decDeg[i] ?? NaN,
      altAz,
    );
    residualArcmin[i] = ((altitudes.hoDeg[i] ?? NaN) - altAz.altDeg) * 60;
    reference[i] = found.name;
  }
  return { residualArcmin, reference };
}

const named = (name: string, place: Place | null | undefined) => (place ? { name, place } : null);

function knownPlace(columns: Columns, i: number): Place | null {
  if (columns['positionKind']?.[i] !== 'known') return null;
  return {
    latDeg: columns['latDeg']?.[i] as number,
    lonDeg: columns['lonDeg']?.[i] as number,
  };
}
