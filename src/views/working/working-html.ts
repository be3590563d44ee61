import { escapeHtml } from '../escape.js';
import type { WorkingData, WorkingRow } from './working-data.js';
import { sigmaText } from './working-text.js';

const NUMBER =
  'text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums;padding:3px 8px';
const TEXT = 'text-align:left;padding:3px 8px';
const FAINT = 'opacity:.75;font-size:.85em';

function rowHtml(row: WorkingRow): string {
  const { isSum } = row;
  const rule = isSum ? ';border-top:1.5px solid currentColor;font-weight:600' : '';
  const td = (style: string, text: string) =>
    `<td style="${style}${rule}">${escapeHtml(text)}</td>`;
  const share = row.varianceShare >= 0.005 ? `${Math.round(row.varianceShare * 100)} %` : '';
  return [
    '<tr>',
    `<th scope="row" style="${TEXT};font-weight:${isSum ? 600 : 400}${rule}">${escapeHtml(row.title)}</th>`,
    td(TEXT, row.figures),
    td(NUMBER, row.correction ?? ''),
    td(NUMBER, row.running),
    td(NUMBER, share),
    td(`${TEXT};${FAINT}`, row.source),
    '</tr>',
  ].join('');
}

/** The working as a static table without scripts: what a host without our extension shows. */
export function workingHtml(data: WorkingData): string {
  const heads: [string, string][] = [
    ['Step', TEXT],
    ['Figures put in', TEXT],
    ['Correction', NUMBER],
    ['Altitude', NUMBER],
    ['Share of variance', NUMBER],
    ['Source', TEXT],
  ];
  const head = heads
    .map(([name, style]) => `<th scope="col" style="${style};${FAINT}">${name}</th>`)
    .join('');
  const assumed = data.assumed.length ? `assumed: ${data.assumed.join('; ')}` : '';
  const notes = [...data.flags, ...data.cautions]
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
    `<tbody>${data.rows.map(rowHtml).join('')}</tbody>`,
    `</table>${notes}</div>`,
  ].join('');
}
