import { createHash } from 'node:crypto';
import { escapeHtml } from '../../views/escape.js';
import type { EditionFacts, PageCell, PageData } from '../client/page-data.js';
import { carried } from './page-cells.js';
import { formulaMathml, markdownHtml } from './markdown.js';
import { stillHtml } from './still-html.js';

/** What goes into a page besides the notebook. */
export interface PageParts {
  readonly script: string;
  readonly css: string;
  /** The years of the ephemeris that the page carries, and their bytes. */
  readonly ephemeris: { readonly name: string; readonly bytes: Uint8Array };
}

/** A notebook as one HTML file that runs by itself, also from a memory stick: nothing is fetched from anywhere. */
export function oneFilePage(data: PageData, { script, css, ephemeris }: PageParts): string {
  const program = script.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--');
  const { edition, cells } = data;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy(program)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${escapeHtml(edition.title)}</title>
<style>${css}</style>
</head>
<body class="${edition.kind}">
<header><p class="title">${escapeHtml(edition.title)}${edition.kind === 'teacher' ? ' (teacher’s edition, with solutions)' : ''}</p></header>
<main>
${cells.map(cellHtml).join('\n')}
</main>
${footer(edition)}
<script type="application/json" id="notebook">${json({ edition, cells: cells.map(asData) })}</script>
<script type="application/json" id="formulas">${json(formulasIn(cells))}</script>
<script type="text/plain" id="ephemeris" data-name="${escapeHtml(ephemeris.name)}">${Buffer.from(ephemeris.bytes).toString('base64')}</script>
<script id="program">${program}</script>
</body>
</html>
`;
}

/**
 * Nothing may be fetched, framed, posted or sent. The page runs one script, known by its checksum, its worker (a
 * blob of the same text), and what the reader writes in cells, for which evaluation has to be allowed.
 */
function policy(program: string): string {
  const hash = createHash('sha256').update(program, 'utf8').digest('base64');
  return [
    "default-src 'none'",
    `script-src 'sha256-${hash}' 'unsafe-eval' blob:`,
    'worker-src blob:',
    "style-src 'unsafe-inline'",
    'img-src data: blob:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

const asData = ({ pictures: _, outputs, ...cell }: PageCell): object => ({
  ...cell,
  outputs: carried(outputs),
});

/** JSON that cannot end its script element. */
const json = (value: unknown): string => JSON.stringify(value).replaceAll('<', '\\u003c');

function cellHtml(cell: PageCell): string {
  if (cell.kind === 'markdown')
    return `<section class="cell text" id="cell-${cell.id}">${markdownHtml(cell.source, cell.pictures)}</section>`;
  const outputs = cell.outputs.map(stillHtml).join('');
  const source = `<pre class="source">${escapeHtml(cell.source)}</pre>`;
  const shown = cell.folded
    ? `<details class="folded"><summary>Code of this cell</summary>${source}</details>`
    : source;
  return (
    `<section class="cell code" id="cell-${cell.id}" data-role="${cell.role}">` +
    `${shown}<div class="outputs">${outputs}</div></section>`
  );
}

/** Every formula that a view of the page can open, set beforehand. */
function formulasIn(cells: readonly PageCell[]): Record<string, string> {
  const found = new Set<string>();
  const walk = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    for (const [key, inner] of Object.entries(value))
      if (key === 'latex' && typeof inner === 'string') found.add(inner);
      else walk(inner);
  };
  walk(cells.map((cell) => cell.outputs));
  return Object.fromEntries([...found].map((latex) => [latex, formulaMathml(latex)]));
}

function footer(edition: EditionFacts): string {
  const facts: [string, string][] = [
    ['Edition', `${edition.notebook} ${edition.version}, ${edition.kind}`],
    ['Library', `Cocked Hat ${edition.library}`],
    ['Seed', 'drawn from each student’s name'],
    ['Licence', edition.licence],
    ...Object.entries(edition.data).map(([file, sum]): [string, string] => [
      `Data ${file}`,
      `SHA-256 ${sum}`,
    ]),
  ];
  const rows = facts.map(
    ([name, text]) => `<dt>${escapeHtml(name)}</dt><dd>${escapeHtml(text)}</dd>`,
  );
  const cautions = edition.cautions.map(
    (text) => `<p><strong>Caution.</strong> ${escapeHtml(text)}</p>`,
  );
  return `<footer>${cautions.join('')}<details><summary>About this edition</summary><dl>${rows.join('')}</dl></details></footer>`;
}
