import { escapeHtml } from '../escape.js';
import type { WorkingData, WorkingRow } from './working-data.js';
import { hasCorrections, hasShares, sigmaText } from './working-text.js';

const NUMBER =
  'text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums;padding:3px 8px';
const TEXT = 'text-align:left;padding:3px 8px';
const FAINT = 'opacity:.75;font-size:.85em';

interface Shown {
  readonly corrections: boolean;
  readonly shares: boolean;
}

function rowHtml(row: WorkingRow, { corrections, shares }: Shown): string {
  const { isSum } = row;
  const rule = isSum ? ';border-top:1.5px solid currentColor;font-weight:600' : '';
  const td = (style: string, text: string) =>
    `<td style="${style}${rule}">${escapeHtml(text)}</td>`;
  const share = row.varianceShare >= 0.005 ? `${Math.round(row.varianceShare * 100)} %` : '';
  return [
    '<tr>',
    `<th scope="row" style="${TEXT};font-weight:${isSum ? 600 : 400}${rule}">${escapeHtml(row.title)}</th>`,
    td(TEXT, row.figures),
    ...(corrections ? [td(NUMBER, row.correction ?? '')] : []),
    td(NUMBER, row.running),
    ...(shares ? [td(NUMBER, share)] : []),
    '</tr>',
  ].join('');
}

/** `Dip: …; Refraction: …`; a column of them would leave the figures no room on paper. */
function sourcesOf(rows: readonly WorkingRow[]): string {
  const told = rows.filter(({ isSum, source }) => !isSum && source);
  return told.map(({ title, source }) => `${title}: ${source}`).join('; ');
}

const column = (name: string): [string, string] => [name, NUMBER];

/** The working as a static table without scripts: what a host without our extension shows. */
export function workingHtml(data: WorkingData): string {
  const shown: Shown = { corrections: hasCorrections(data), shares: hasShares(data) };
  const heads: [string, string][] = [
    ['Step', TEXT],
    ['Figures put in', TEXT],
    ...(shown.corrections ? [column('Correction')] : []),
    column('Value'),
    ...(shown.shares ? [column('Share of variance')] : []),
  ];
  const head = heads
    .map(([name, style]) => `<th scope="col" style="${style};${FAINT}">${name}</th>`)
    .join('');
  const assumed = data.assumed.length ? `assumed: ${data.assumed.join('; ')}` : '';
  const sources = sourcesOf(data.rows);
  const notes = [...data.flags, ...data.cautions, ...(sources ? [`Sources. ${sources}.`] : [])]
    .map((note) => `<p style="margin:.4em 0;${FAINT}">${escapeHtml(note)}</p>`)
    .join('');
  return [
    '<div class="cocked-hat-working">',
    '<table style="border-collapse:collapse">',
    `<caption style="text-align:left;caption-side:top"><b>${escapeHtml(data.title)}</b>`,
    ` <span>${escapeHtml(sigmaText(data))}</span>`,
    assumed ? ` <i style="${FAINT}">${escapeHtml(assumed)}</i>` : '',
    '</caption>',
    `<thead><tr>${head}</tr></thead>`,
    `<tbody>${data.rows.map((row) => rowHtml(row, shown)).join('')}</tbody>`,
    `</table>${notes}</div>`,
  ].join('');
}
