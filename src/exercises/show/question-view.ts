import { formOfLine, type GivenTable, type Question } from '../question/index.js';
import type { Tolerance } from '../tolerance/index.js';
import { escapeHtml } from '../../views/escape.js';
import type { MimeBundle } from '../../views/index.js';

/** The question as it shows in a notebook: task, what is given, and the lines to write. Holds no figure of the working. */
export function questionBundle(question: Question<never>): MimeBundle {
  return { 'text/html': html(question), 'text/plain': plain(question) };
}

/** JupyterLab sets tables of HTML flush right; words read from the left. */
export const LEFT = ' style="text-align:left"';

const cell = (tag: 'th' | 'td', text: string, scope = '', style = '') =>
  `<${tag}${scope && ` scope="${scope}"`}${style}>${escapeHtml(text)}</${tag}>`;
const words = (tag: 'th' | 'td', text: string, scope = '') => cell(tag, text, scope, LEFT);

function html(q: Question<never>): string {
  const given = q.printed.map(
    ([label, text]) => `<tr>${words('th', label, 'row')}${cell('td', text)}</tr>`,
  );
  const lines = q.lines.map(
    (line) =>
      `<tr>${words('th', line.title, 'row')}<td${LEFT}><code>${escapeHtml(line.id)}</code></td>` +
      `${words('td', formOfLine(line))}${cell('td', within(q.tolerance(line)))}${cell('td', line.quantity === 'words' ? '–' : String(line.marks ?? 1))}</tr>`,
  );
  return [
    `<section class="ch-question"><h3>${escapeHtml(q.title)}</h3>`,
    `<p>${escapeHtml(q.task)}</p>`,
    `<table class="ch-given"><caption${LEFT}>Given</caption><tbody>${given.join('')}</tbody></table>`,
    q.table ? tableHtml(q.table) : '',
    `<table class="ch-lines"><caption${LEFT}>Lines to write</caption><thead><tr>`,
    ['Line', 'Key', 'Write it as'].map((t) => words('th', t, 'col')).join(''),
    ['Within', 'Marks'].map((t) => cell('th', t, 'col')).join(''),
    `</tr></thead><tbody>${lines.join('')}</tbody></table>`,
    ...q.cautions.map(
      (c) => `<p class="ch-caution"><strong>Caution.</strong> ${escapeHtml(c)}</p>`,
    ),
    q.code ? `<p class="ch-code">Numbers ${escapeHtml(q.code)}</p>` : '',
    '</section>',
  ].join('');
}

function tableHtml({ caption, head, rows }: GivenTable): string {
  const body = rows.map((row) => `<tr>${row.map((text) => cell('td', text)).join('')}</tr>`);
  return (
    `<table class="ch-sights"><caption${LEFT}>${escapeHtml(caption)}</caption><thead><tr>` +
    `${head.map((text) => cell('th', text, 'col')).join('')}</tr></thead><tbody>${body.join('')}</tbody></table>`
  );
}

/** `0.2′`, `2 nm`; a dash for words. */
export function within(tolerance: Tolerance | undefined): string {
  if (!tolerance) return '–';
  const size = String(Number(tolerance.size.toFixed(2)));
  return tolerance.unit === '′' || tolerance.unit === '°'
    ? `${size}${tolerance.unit}`
    : `${size} ${tolerance.unit}`;
}

function plain(q: Question<never>): string {
  const column = (rows: readonly (readonly string[])[]) => rows.map((row) => row.join('   '));
  return [
    q.title,
    q.task,
    '',
    ...q.printed.map(([label, text]) => `${label}: ${text}`),
    ...(q.table ? ['', q.table.caption, ...column([q.table.head, ...q.table.rows])] : []),
    '',
    'Lines to write:',
    ...q.lines.map((line) => `  ${line.id}: ${line.title}, as ${formOfLine(line)}`),
    ...q.cautions.map((c) => `Caution. ${c}`),
    ...(q.code ? [`Numbers ${q.code}`] : []),
  ].join('\n');
}
