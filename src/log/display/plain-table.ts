import { escapeHtml } from './escape-html.js';
import type { LogTableData } from './log-table.js';

const headOf = (c: LogTableData['columns'][number]) => (c.unit ? `${c.head} (${c.unit})` : c.head);

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

/** A true table in HTML without styles or script. @param most rows shown, the rest counted */
export function htmlTable(data: LogTableData, most = 50): string {
  const rows = data.rows.slice(0, most);
  const more = data.total - rows.length;
  const head = data.columns.map((c) => `<th scope="col">${escapeHtml(headOf(c))}</th>`).join('');
  const body = rows
    .map((r) => {
      const cells = r.cells.map((c, i) =>
        data.columns[i]?.align === 'right'
          ? `<td style="text-align:right">${escapeHtml(c)}</td>`
          : `<td>${escapeHtml(c)}</td>`,
      );
      return `<tr>${cells.join('')}</tr>`;
    })
    .join('\n');
  const notes = [more > 0 ? `… and ${more} more.` : '', data.summary].filter(Boolean).join(' ');
  const caption = notes ? `<caption>${escapeHtml(notes)}</caption>` : '';
  return `<table class="cocked-hat-log">${caption}<thead><tr>${head}</tr></thead>\n<tbody>\n${body}\n</tbody></table>`;
}
