import { runsOf, type CellFinding, type LogReport } from '../report.js';
import { escapeHtml } from './escape-html.js';
import { LEFT } from './report-html.js';

/** Texts that are shown of many rows with the same finding. */
const SHOWN = 3;

/** What reading a file found, as a page of its own without styles of the host: notes, then a row for each kind of finding. */
export function logReportHtml(report: LogReport): string {
  const { summary, notes, refused, queries } = report;
  const whole = new Map(refused.map((row) => [row.line, row.text]));
  const rows = [
    ...alike(refused.flatMap((row) => row.findings)).map((found) =>
      rowHtml('refused', found, whole),
    ),
    ...alike(queries).map((found) => rowHtml('to look at', found, whole)),
  ];
  const said = notes.map((note) => `<li>${escapeHtml(note)}</li>`).join('');
  return [
    `<div class="cocked-hat-report" style="margin:6px 5px"><p>${escapeHtml(summary)}</p>`,
    said && `<ul>${said}</ul>`,
    rows.length > 0 && `${tableHtml(rows)}${refused.length > 0 ? KEPT : ''}`,
    '</div>',
  ]
    .filter(Boolean)
    .join('\n');
}

const KEPT =
  '<p>Refused rows are not in the log, but kept as they were written: <code>editLog({ log })</code> offers them to be mended, and <code>log.toCsv()</code> writes them at its end.</p>';

function tableHtml(rows: readonly string[]): string {
  const heads = ['', 'Line', 'Column', 'As written', 'What is amiss, and the right form'];
  const head = heads
    .map((h) => `<th scope="col" style="${LEFT};white-space:nowrap">${h}</th>`)
    .join('');
  return `<table style="border-collapse:collapse"><thead><tr>${head}</tr></thead><tbody>${rows.join('\n')}</tbody></table>`;
}

/** Findings of one column for one reason, together. */
function alike(findings: readonly CellFinding[]): CellFinding[][] {
  const groups = new Map<string, CellFinding[]>();
  for (const found of findings) {
    const why = `${found.column} ${found.reason}`;
    const group = groups.get(why);
    if (group) group.push(found);
    else groups.set(why, [found]);
  }
  return [...groups.values()];
}

function rowHtml(
  verdict: string,
  found: readonly CellFinding[],
  whole: ReadonlyMap<number, string>,
): string {
  const [first] = found as [CellFinding];
  const texts = [...new Set(found.map((f) => (f.column === null ? whole.get(f.line) : f.text)))];
  const shown = texts.slice(0, SHOWN).filter((text) => text !== undefined && text !== '');
  const more = texts.length > SHOWN ? ' …' : '';
  const count = found.length > SHOWN ? ` (${found.length} rows)` : '';
  const cells = [
    verdict,
    runsOf(found.map((f) => f.line)) + count,
    first.head ?? (first.column === null ? 'the whole row' : `${first.column}`),
    shown.join('; ') + more,
    first.reason,
  ];
  const tds = cells.map((cell, i) =>
    i === 0
      ? `<th scope="row" style="${LEFT};white-space:nowrap">${escapeHtml(cell)}</th>`
      : `<td style="${LEFT}">${escapeHtml(cell)}</td>`,
  );
  return `<tr>${tds.join('')}</tr>`;
}
