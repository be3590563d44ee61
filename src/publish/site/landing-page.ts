import { escapeHtml } from '../../views/escape.js';
import type { EditionFacts } from '../client/page-data.js';

/** The first page of a site: what there is, where to begin, cautions, and what edition it is. Works in any subfolder. */
export function landingPage(
  title: string,
  editions: readonly { readonly facts: EditionFacts; readonly file: string }[],
  css: string,
): string {
  const items = editions.map(
    ({ facts, file }) =>
      `<li><a href="./notebooks/index.html?path=${encodeURIComponent(file)}">${escapeHtml(facts.title)}</a> <small>edition ${escapeHtml(facts.version)}</small></li>`,
  );
  const [first] = editions;
  const cautions = (first?.facts.cautions ?? []).map(
    (c) => `<p><strong>Caution.</strong> ${escapeHtml(c)}</p>`,
  );
  const data = Object.entries(first?.facts.data ?? {}).map(
    ([file, sum]) => `<dt>Data ${escapeHtml(file)}</dt><dd>SHA-256 ${escapeHtml(sum)}</dd>`,
  );
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(title)}</title>
<style>${css}</style>
<!-- The notebooks look here for settings of the whole site. -->
<script id="jupyter-config-data" type="application/json" data-jupyter-lite-root=".">{}</script>
</head>
<body>
<main>
<h1>${escapeHtml(title)}</h1>
<p>Each notebook opens in this browser and runs there; nothing is installed and nothing is sent anywhere. What you change is kept in this browser. When a notebook is corrected it gets another edition number, and your copy of the old one stays as it is. To hand one in, choose <b>Download</b> in its <b>File</b> menu: that saves the notebook as a file.</p>
<ol>${items.join('\n')}</ol>
</main>
<footer>${cautions.join('')}<details><summary>About this edition</summary><dl><dt>Library</dt><dd>Cocked Hat ${escapeHtml(first?.facts.library ?? '')}</dd><dt>Seed</dt><dd>drawn from each student’s name</dd><dt>Licence</dt><dd>${escapeHtml([...new Set(editions.map((e) => e.facts.licence))].join(', '))}</dd>${data.join('')}</dl></details></footer>
</body>
</html>
`;
}
