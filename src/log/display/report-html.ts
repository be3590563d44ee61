import type { PracticePart } from '../analysis/practice-sentences.js';
import type { ReportSection } from '../analysis/passage-report.js';
import { escapeHtml } from './escape-html.js';

/** Sections of sentences and tables as HTML without styles or script. */
export function reportHtml(sections: readonly ReportSection[]): string {
  return `<div class="cocked-hat-report">${sections.map(sectionHtml).join('\n')}</div>`;
}

/** Cells of words: to the left and the top, where hosts set figures to the right. */
export const LEFT = 'text-align:left;vertical-align:top;padding:3px 8px';

/** Parts of a report side by side with what each is about, a page of its own without styles of the host. */
export function partsHtml(title: string, parts: readonly PracticePart[]): string {
  const rows = parts.map(({ about, sentences }) => {
    const text = sentences
      .map((s) => `<div style="margin:0 0 2px">${escapeHtml(s)}</div>`)
      .join('');
    return `<tr><th scope="row" style="${LEFT};white-space:nowrap">${escapeHtml(about)}</th><td style="${LEFT}">${text}</td></tr>`;
  });
  return `<div class="cocked-hat-report" style="margin:8px 0 8px 5px"><table style="border-collapse:collapse"><caption style="text-align:left;caption-side:top;padding-bottom:2px"><b>${escapeHtml(title)}</b></caption>${rows.join('')}</table></div>`;
}

function sectionHtml({ title, sentences, table }: ReportSection): string {
  const text = sentences.map((s) => `<p>${escapeHtml(s)}</p>`).join('');
  return `<h4>${escapeHtml(title)}</h4>${text}${table ? tableHtml(table) : ''}`;
}

function tableHtml({ heads, rows }: NonNullable<ReportSection['table']>): string {
  const head = heads.map((h) => `<th scope="col">${escapeHtml(h)}</th>`).join('');
  const body = rows
    .map((r) => {
      const cells = r.map((c, i) =>
        i === 0 ? `<th scope="row">${escapeHtml(c)}</th>` : `<td>${escapeHtml(c)}</td>`,
      );
      return `<tr>${cells.join('')}</tr>`;
    })
    .join('');
  return `<table><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>`;
}
