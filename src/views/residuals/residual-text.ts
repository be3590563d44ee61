import { formatAngle, formatBearing, formatCorrection } from '../../core/units/index.js';
import { escapeHtml } from '../escape.js';
import { iso, sigmas } from './point-parts.js';
import type { ResidualPoint, ResidualsData } from './residual-data.js';

export interface ResidualColumn {
  readonly head: string;
  readonly isFigure: boolean;
  readonly cell: (p: ResidualPoint) => string;
}

const OBSERVER: ResidualColumn = { head: 'Observer', isFigure: false, cell: (p) => p.observer };
const COLUMNS: readonly ResidualColumn[] = [
  { head: 'Body', isFigure: false, cell: (p) => p.body },
  { head: 'UTC', isFigure: false, cell: (p) => iso(p.timeMs) },
  OBSERVER,
  { head: 'Altitude', isFigure: true, cell: (p) => formatAngle(p.altitudeDeg) },
  { head: 'Azimuth', isFigure: true, cell: (p) => formatBearing(p.azimuthDeg) },
  { head: 'Residual', isFigure: true, cell: (p) => formatCorrection(p.residualArcmin) },
  { head: 'Standardised', isFigure: true, cell: standardisedText },
  { head: 'Used', isFigure: false, cell: usedText },
];

/** What a table of these points shows; who observed is left out where nobody was named. */
export const residualColumns = (points: readonly ResidualPoint[]): readonly ResidualColumn[] =>
  COLUMNS.filter((column) => column !== OBSERVER || points.some((p) => p.observer));

/** `−0.7 σ`, or that it was not checked. */
export function standardisedText(p: ResidualPoint): string {
  return p.standardised === undefined ? 'not checked' : sigmas(p.standardised);
}

function usedText(p: ResidualPoint): string {
  return p.isAccepted ? 'yes' : `no${p.reason ? `: ${p.reason}` : ''}`;
}

const SHOWN = 60;

export function residualsText({ title, reference, points, note }: ResidualsData): string {
  const columns = residualColumns(points);
  const rows = [
    columns.map(({ head }) => head),
    ...points.slice(0, SHOWN).map((p) => columns.map(({ cell }) => cell(p))),
  ];
  const widths = columns.map((_, i) => Math.max(...rows.map((r) => [...(r[i] ?? '')].length)));
  const lines = rows.map((r) =>
    r
      .map((c, i) => c + ' '.repeat(Math.max(0, (widths[i] ?? 0) - [...c].length)))
      .join('  ')
      .trimEnd(),
  );
  const more = points.length > SHOWN ? [`… and ${points.length - SHOWN} more`] : [];
  return [
    `${title}, against ${reference}`,
    ...lines,
    ...more,
    ...(note === undefined ? [] : [note]),
  ].join('\n');
}

export function residualsHtml({ title, reference, points, note }: ResidualsData): string {
  const cell = 'padding:3px 8px;text-align:left;font-variant-numeric:tabular-nums';
  const columns = residualColumns(points);
  const head = columns.map((c) => `<th scope="col" style="${cell}">${c.head}</th>`).join('');
  const body = points
    .slice(0, SHOWN)
    .map((p) => columns.map((c) => c.cell(p)))
    .map((r) => `<tr>${r.map((c) => `<td style="${cell}">${escapeHtml(c)}</td>`).join('')}</tr>`)
    .join('');
  const more = points.length > SHOWN ? `<p>… and ${points.length - SHOWN} more</p>` : '';
  const below = note === undefined ? '' : `<p>${escapeHtml(note)}</p>`;
  return `<div class="cocked-hat-residuals"><p><b>${escapeHtml(title)}</b>, against ${escapeHtml(reference)}</p><table style="border-collapse:collapse"><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>${more}${below}</div>`;
}
