import { interceptText, type PositionLine } from '../core/line/index.js';
import { formatBearing } from '../core/units/index.js';
import type { MimeBundle } from './mime.js';
import { tableHtml, tableText, type PlainTable } from './plain-table.js';

/** The figures of one position line as a small table. */
export function positionLineBundle(line: PositionLine): MimeBundle {
  const sigma = line.uncertainty.sigma.arcminutes;
  const table: PlainTable = {
    caption: `Position line: ${line.body}, ${line.instant.toString()}`,
    heads: ['From', 'Observed Ho', 'Computed Hc', 'Intercept', 'Azimuth', '1σ'],
    rows: [
      [
        line.position.toString(),
        line.observed.toString(),
        line.computed.toString(),
        interceptText(line.intercept),
        formatBearing(line.azimuth.degrees, 1),
        `${sigma.toFixed(1)} nm`,
      ],
    ],
  };
  return { 'text/html': tableHtml(table), 'text/plain': tableText(table) };
}
