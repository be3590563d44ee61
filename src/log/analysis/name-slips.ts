import { altitudeKernel } from '../../core/line/altitude-kernel.js';
import type { CellValue } from '../columns/column.js';
import { altitudes } from '../derived/altitudes.js';
import { inputKeys } from '../derived/derived-columns.js';
import type { LogRow, SightLog } from '../sight-log.js';
import { slipHypotheses } from './slip-hypotheses.js';

/** A slip that would explain a reading, and what is left of the residual once it is undone. */
export interface NamedSlip {
  readonly slip: string;
  /** What the row should have said. */
  readonly undone: string;
  /** Residual with the slip undone, minutes of arc; the usual bias is not taken off. */
  readonly residualArcmin: number;
  /** Probability among the slips tried and one of no known kind, given how often each is made. */
  readonly weight: number;
}

/** A slip of no known kind: any residual within two degrees is as likely as any other. */
const OTHER = { odds: 0.3, widthArcmin: 240 };
/** A slip less likely than this is not worth a word. */
const LEAST_WEIGHT = 0.02;

/**
 * The slips that would explain a reading, the most likely first. Each is undone in the row, the reading worked anew,
 * and what is left compared with the usual bias and scatter of the other readings.
 * @param biasArcmin usual residual @param sigmaArcmin usual scatter, one standard deviation
 */
export function nameSlips(
  log: SightLog,
  row: LogRow,
  biasArcmin: number,
  sigmaArcmin: number,
): NamedSlip[] {
  const tried = slipHypotheses(row).flatMap((h) => {
    const residualArcmin = residualOf(log, row, h.change);
    if (!Number.isFinite(residualArcmin)) return [];
    const z = (residualArcmin - biasArcmin) / sigmaArcmin;
    const density = Math.exp((-z * z) / 2) / (sigmaArcmin * Math.sqrt(2 * Math.PI));
    return [{ ...h, residualArcmin, likelihood: h.odds * density }];
  });
  const total = tried.reduce((s, t) => s + t.likelihood, OTHER.odds / OTHER.widthArcmin);
  return tried
    .filter((t) => t.likelihood / total > LEAST_WEIGHT)
    .sort((a, b) => b.likelihood - a.likelihood)
    .map(({ slip, undone, residualArcmin, likelihood }) => ({
      slip,
      undone,
      residualArcmin,
      weight: likelihood / total,
    }));
}

/** Residual of the changed row against the track, or the row's own position where that is known. */
function residualOf(log: SightLog, row: LogRow, change: Partial<Record<keyof LogRow, unknown>>) {
  const columns = Object.fromEntries(
    inputKeys.map((key) => [key, [(key in change ? change[key] : row[key]) as CellValue]]),
  );
  const worked = altitudes(columns, 1);
  const place =
    log.track?.placeAt((change.utcMs as number | undefined) ?? row.utcMs) ??
    (row.positionKind === 'known' ? { latDeg: row.latDeg, lonDeg: row.lonDeg } : null);
  if (!place || place.latDeg === null || place.lonDeg === null) return NaN;
  const { altDeg } = altitudeKernel(
    place.latDeg,
    place.lonDeg,
    worked.ghaDeg[0] ?? NaN,
    worked.decDeg[0] ?? NaN,
  );
  return ((worked.hoDeg[0] ?? NaN) - altDeg) * 60;
}
