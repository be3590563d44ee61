import { commonColumns, headOf } from './common-columns.js';
import { escapeHtml } from './escape-html.js';
import type { LogTableData } from './log-table.js';

/** A table in plain text: heads, a rule, rows; figures to the right. @param most rows shown, the rest counted */
export function plainTable(data: LogTableData, most = 20): string {
  const rows = data.rows.slice(0, most);
  const heads = data.columns.map(headOf);
  const widths = heads.map((h, i) =>
    Math.max([...h].length, ...rows.map((r) => [...(r.cells[i] ?? '')].length)),
  );
  const line = (cells: readonly string[]) =>
    cells
      .map((c, i) => pad(c, widths[i] ?? 0, data.columns[i]?.align === 'right'))
      .join('  ')
      .trimEnd();
  const more = data.total - rows.length;
  return [
    line(heads),
    widths.map((w) => '─'.repeat(w)).join('  '),
    ...rows.map((r) => line(r.cells)),
    ...(more > 0 ? [`… and ${more} more`] : []),
    ...(data.summary ? ['', data.summary] : []),
  ].join('\n');
}

function pad(text: string, width: number, right: boolean): string {
  const fill = ' '.repeat(Math.max(0, width - [...text].length));
  return right ? fill + text : text + fill;
}

const CELL = 'white-space:nowrap;padding:2px 8px;text-align:';

/**
 * A true table in HTML without script, for a saved notebook and for paper: what all rows have in common is said once above
 * it. @param most rows shown, the rest counted
 */
export function htmlTable(data: LogTableData, most = 50): string {
  const rows = data.rows.slice(0, most);
  const more = data.total - rows.length;
  const { kept, common } = commonColumns(data);
  const styleOf = (i: number) =>
    `style="${CELL}${data.columns[i]?.align === 'right' ? 'right' : 'left'}"`;
  const head = kept
    .map((i) => `<th scope="col" ${styleOf(i)}>${escapeHtml(headOf(data.columns[i]!))}</th>`)
    .join('');
  const body = rows
    .map((r) => kept.map((i) => `<td ${styleOf(i)}>${escapeHtml(r.cells[i] ?? '')}</td>`).join(''))
    .map((cells) => `<tr>${cells}</tr>`)
    .join('\n');
  const notes = [
    more > 0 ? `… and ${more} more.` : '',
    data.summary,
    common.length > 0
      ? `In every row${data.total > data.rows.length ? ' shown' : ''}: ${common.join(' · ')}.`
      : '',
  ].filter(Boolean);
  const caption =
    notes.length > 0
      ? `<caption style="text-align:left;caption-side:top">${escapeHtml(notes.join(' '))}</caption>`
      : '';
  return `<table class="cocked-hat-log">${caption}<thead><tr>${head}</tr></thead>\n<tbody>\n${body}\n</tbody></table>`;
}
