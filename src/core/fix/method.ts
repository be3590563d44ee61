import type { AltitudeRow } from './altitude-model.js';
import { chi2Quantile } from './distributions.js';
import { bestCrossingDeg } from './flags.js';
import { eigen2, inverse } from './matrix.js';
import type { Solution } from './solve.js';

const HIGH_DEG = 80;
const CLOSE_AZIMUTHS_DEG = 30;
/** A circle may leave its tangent by this part of the sight's sigma within the region before straight lines are given up. */
const BEND = 0.15;
const ARCMIN_PER_RADIAN = 3437.747;

/**
 * Whether the density must be taken from the circles themselves: two bodies only, all azimuths close together, a body over
 * 80°, or circles that bend noticeably (a²/2 × tan h, a the long semi-axis) within the 95 % region.
 */
export function wantsGrid(
  rows: readonly AltitudeRow[],
  s: Solution,
  estimateSigma: boolean,
): boolean {
  const c = s.unknowns ? inverse(s.normal) : null;
  if (!c) return false;
  if (rows.length === 2) return true;
  if (rows.some((r) => r.observedDeg > HIGH_DEG)) return true;
  if (bestCrossingDeg(s) < CLOSE_AZIMUTHS_DEG) return true;
  const scale = estimateSigma ? 2 : 1;
  const a = scale * Math.sqrt(eigen2(c).major * chi2Quantile(0.95, 2));
  return rows.some(
    (r) =>
      (a * a * Math.tan((r.observedDeg * Math.PI) / 180)) / (2 * ARCMIN_PER_RADIAN) >
      BEND * r.ownSigmaArcmin * scale,
  );
}
