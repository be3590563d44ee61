import type { FixFlag, FixLine, Residual, SlipReport } from '../../core/fix/index.js';
import { percent } from '../../core/fix/slip-report.js';
import { interceptText, type PositionLine } from '../../core/line/index.js';
import type { BodyUp } from '../../core/plan/index.js';
import type { Sight } from '../../core/sextant/index.js';
import type { ApparentPlace } from '../../core/sky/index.js';
import {
  formatAngle,
  formatBearing,
  formatCorrection,
  formatLatitude,
  formatSigned,
} from '../../core/units/index.js';
import type { Uncertainty } from '../../core/working/index.js';
import type { PlainTable } from '../plain-table.js';
import { rowsTable, type Row } from './row.js';

export const bodyRow = (up: BodyUp): Row => ({
  Body: up.name,
  Altitude: up.altitude.toString(),
  Azimuth: formatBearing(up.azimuth.degrees),
  'Set the sextant to': up.preset.toString(),
  Magnitude: up.magnitude === null ? '–' : formatSigned(up.magnitude),
});

export const residualRow = (r: Residual): Row => ({
  Sight: r.label,
  Residual: formatCorrection(r.residual.arcminutes),
  '1σ': `${r.sigma.arcminutes.toFixed(1)}′`,
  'In σ, checked by the others':
    r.standardised === null ? 'unchecked' : formatSigned(r.standardised),
});

export const flagRow = (flag: FixFlag): Row => ({ 'What must be known': flag.text });

/** What a position line comes to; its body and time or its starting place stand before. */
export const lineFigures = (line: PositionLine): Row => ({
  'Observed Ho': line.observed.toString(),
  'Computed Hc': line.computed.toString(),
  Intercept: interceptText(line.intercept),
  Azimuth: formatBearing(line.azimuth.degrees, 1),
  '1σ': `${line.uncertainty.sigma.arcminutes.toFixed(1)} nm`,
});

export const lineRow = (line: PositionLine): Row => ({
  Body: line.body,
  Time: line.instant.toSecond(),
  ...lineFigures(line),
});

export const fixLineRow = ({ line }: FixLine): Row => lineRow(line);

export const sightRow = (sight: Sight): Row => ({
  Sight: sight.bodyAndLimb,
  Time: sight.instant.toSecond(),
  Reading: sight.readings.map((r) => r.angle.toString()).join(', '),
  DR: sight.dr?.toString() ?? '–',
});

export const placeRow = (place: ApparentPlace): Row => ({
  Body: place.body,
  Time: place.instant.toString(),
  GHA: formatAngle(place.gha.degrees, 1, 3),
  Declination: formatLatitude(place.declination.degrees),
});

const share = (part: number): string => (part < 0.01 ? '< 1 %' : `${(100 * part).toFixed(0)} %`);

/** `index:sextant 1:2027-05-05 1.2′ on the arc` as it is said: the cause stands in its own column. */
const sharedBy = (key: string): string =>
  key.replace(/^[^:]*:/, '').replace(/:(?!\d\d(?!\d))/g, ', ');

/** The causes of an uncertainty, the greatest first, with their share of the variance. */
export function causesTable(uncertainty: Uncertainty): PlainTable {
  const total = uncertainty.varianceArcmin2;
  const rows = [...uncertainty.causes]
    .sort((a, b) => b.sigmaArcmin - a.sigmaArcmin)
    .map(({ cause, sigmaArcmin, sharedKey }) => ({
      Cause: cause,
      '1σ': `${(sigmaArcmin / (uncertainty.unit === '°' ? 60 : 1)).toFixed(2)}${uncertainty.unit}`,
      'Share of variance': total > 0 ? share(sigmaArcmin ** 2 / total) : '–',
      'Shared by': sharedKey === undefined ? 'nothing' : sharedBy(sharedKey),
    }));
  return rowsTable(`Uncertainty: ${uncertainty.toString()}`, rows);
}

/** What may be wrong with a sight or round, the likeliest first, as far as it is worth reading. */
export function slipsTable(report: SlipReport): PlainTable {
  const rows = report.likeliest.map((f) => ({
    'What may be wrong': f.text,
    Probability: percent(f.probability),
  }));
  const residual = report.residual && formatCorrection(report.residual.arcminutes);
  return rowsTable(residual ? `Slips; residual as it stands ${residual}` : 'Slips', rows);
}
