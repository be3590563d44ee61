import { findSlip, type SlipKind } from '../../core/fix/index.js';
import { formatCorrection, Position } from '../../core/units/index.js';
import type { CellValue } from '../columns/column.js';
import { toSight } from '../derived/to-sight.js';
import type { LogRow, SightLog } from '../sight-log.js';
import type { ReadingRow } from '../table/reading-row.js';

/** A slip that would explain a reading, and what is left of the residual once it is undone. */
export class NamedSlip {
  readonly slip: SlipKind;
  /** How it is undone: `1° more`, `upper limb`. */
  readonly undone: string;
  /** Residual with the slip undone, minutes of arc; the usual bias is not taken off. */
  readonly residualArcmin: number;
  /** Probability among all slips known and one that is not on the list. */
  readonly probability: number;
  constructor(of: Pick<NamedSlip, 'slip' | 'undone' | 'residualArcmin' | 'probability'>) {
    this.slip = of.slip;
    this.undone = of.undone;
    this.residualArcmin = of.residualArcmin;
    this.probability = of.probability;
    Object.freeze(this);
  }
  /** `whole degree (1° more, leaving +1.0′)`. */
  toString(): string {
    return `${this.slip} (${this.undone}, leaving ${formatCorrection(this.residualArcmin)})`;
  }
}

/** A slip less likely than this is not worth a word. */
const LEAST_PROBABILITY = 0.02;

/** A reading that is off by less than this many of its own standard deviations needs no slip to explain it. */
const BELIEVABLE = 2.5;

/** Whether a reading is no further from the usual than its own error budget lets it be, however close the others are. */
export const isBelievable = (row: LogRow, biasArcmin: number): boolean =>
  Math.abs((row.residualArcmin ?? NaN) - biasArcmin) < BELIEVABLE * (row.sigmaArcmin ?? 0);

/**
 * The slips that would explain a reading, the most likely first, by `findSlip` at the reference; none without a track
 * or a known position, and none where the reading's own error budget explains it. The usual bias and scatter of the other readings stand in for the reading's own error budget.
 * @param biasArcmin usual residual @param sigmaArcmin usual scatter, one standard deviation
 */
export function nameSlips(
  log: SightLog,
  row: LogRow,
  biasArcmin: number,
  sigmaArcmin: number,
): NamedSlip[] {
  const place = referenceOf(log, row);
  if (!place || isBelievable(row, biasArcmin)) return [];
  const report = findSlip(toSight([usualRow(row, biasArcmin, sigmaArcmin)]), place);
  return report.findings.flatMap(({ kind, detail, probability, residual }) =>
    kind === 'clean' || kind === 'unexplained' || !residual || probability < LEAST_PROBABILITY
      ? []
      : [
          new NamedSlip({
            slip: kind,
            undone: detail,
            residualArcmin: residual.arcminutes + biasArcmin,
            probability,
          }),
        ],
  );
}

function referenceOf(log: SightLog, row: LogRow): Position | null {
  const on = log.track?.placeAt(row.utcMs);
  if (on) return Position.degrees(on.latDeg, on.lonDeg);
  if (row.positionKind !== 'known' || row.latDeg === null || row.lonDeg === null) return null;
  return Position.degrees(row.latDeg, row.lonDeg);
}

/** The reading with the usual bias taken off as an index error, and the usual scatter as its standard deviation. */
function usualRow(row: LogRow, biasArcmin: number, sigmaArcmin: number): ReadingRow {
  const scale = row.horizon === 'artificial' ? 2 : 1;
  const stored = Object.entries(Object.getOwnPropertyDescriptors(row)).flatMap(([key, d]) =>
    'value' in d ? [[key, d.value as CellValue] as const] : [],
  );
  return {
    ...(Object.fromEntries(stored) as unknown as ReadingRow),
    indexErrorArcmin: (row.indexErrorArcmin ?? 0) + scale * biasArcmin,
    statedSigmaArcmin: sigmaArcmin,
  };
}
