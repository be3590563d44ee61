import { formatAngle, formatBearing, formatCorrection } from '../../core/units/index.js';
import { escapeHtml } from '../escape.js';
import { iso, sigmas } from './point-parts.js';
import type { ResidualPoint, ResidualsData } from './residual-data.js';

export const RESIDUAL_HEADS = [
  'Body',
  'UTC',
  'Observer',
  'Altitude',
  'Azimuth',
  'Residual',
  'Standardised',
  'Used',
] as const;

/** A point as a table shows it, in the order of `RESIDUAL_HEADS`. */
export const residualCells = (p: ResidualPoint): string[] => [
  p.body,
  iso(p.timeMs),
  p.observer,
  formatAngle(p.altitudeDeg),
  formatBearing(p.azimuthDeg),
  formatCorrection(p.residualArcmin),
  p.standardised === undefined ? 'not checked' : sigmas(p.standardised),
  p.isAccepted ? 'yes' : `no${p.reason ? `: ${p.reason}` : ''}`,
];

const SHOWN = 60;

export function residualsText({ title, reference, points, note }: ResidualsData): string {
  const rows = [RESIDUAL_HEADS as readonly string[], ...points.slice(0, SHOWN).map(residualCells)];
  const widths = RESIDUAL_HEADS.map((_, i) =>
    Math.max(...rows.map((r) => [...(r[i] ?? '')].length)),
  );
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
  const head = RESIDUAL_HEADS.map((n) => `<th scope="col" style="${cell}">${n}</th>`).join('');
  const body = points
    .slice(0, SHOWN)
    .map((p) => residualCells(p))
    .map((r) => `<tr>${r.map((c) => `<td style="${cell}">${escapeHtml(c)}</td>`).join('')}</tr>`)
    .join('');
  const more = points.length > SHOWN ? `<p>… and ${points.length - SHOWN} more</p>` : '';
  const below = note === undefined ? '' : `<p>${escapeHtml(note)}</p>`;
  return `<div class="cocked-hat-residuals"><p><b>${escapeHtml(title)}</b>, against ${escapeHtml(reference)}</p><table style="border-collapse:collapse"><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>${more}${below}</div>`;
}
