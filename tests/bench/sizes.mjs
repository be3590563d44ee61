/**
 * What is loaded and sent, packed with gzip at level 9: the extension's own code and what it loads later, a page's one file,
 * the deck sheet, the ephemeris and a year's cut of it. Wants dist/ built. Exits 1 when something is over its limit.
 */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import { buildLab, buildPage } from '../../src/lab/build.mjs';
import { bundle, ROOT } from './bundle.mjs';
import { figure, give, isGood, say } from './report/figures.mjs';

const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-sizes-'));
const packed = (bytes) => gzipSync(bytes, { level: 9 }).length / 1000;
const fileSize = (file) => packed(fs.readFileSync(file));
const figures = [];

function row(name, value, target = null) {
  const made = figure({ name, value, unit: 'kB', target });
  figures.push(made);
  const aim = target === null ? '' : `at most ${target.most}`;
  say(`${name.padEnd(72)}${value.toFixed(value < 20 ? 1 : 0).padStart(6)} kB  ${aim}`);
  if (!isGood(made)) process.exitCode = 1;
}

/** What JupyterLab loads at once, and what only when it is first wanted. */
async function extension() {
  const kinds = [
    ['plotly', 'plotly.js, loaded with the first plot', { most: 650 }],
    ['grid', 'grid of the log’s editor, loaded with the first editor', null],
    ['katex', 'KaTeX, loaded with the first formula', null],
    ['coast', 'coastlines, loaded with the first chart', null],
    ['bench-score', 'tables and statistics of the bench, loaded with its first mark', null],
    ['', 'views and extension for JupyterLab, own code', { most: 274 }],
  ];
  const { outdir } = await buildLab({ outdir: path.join(folder, 'labextension') });
  const statics = path.join(outdir, 'static');
  const totals = new Map(kinds.map(([start]) => [start, 0]));
  for (const name of fs.readdirSync(statics).filter((file) => file.endsWith('.js'))) {
    const [start] = kinds.find(([begin]) => name.startsWith(begin));
    totals.set(start, totals.get(start) + fileSize(path.join(statics, name)));
  }
  for (const [start, name, target] of kinds.toReversed()) row(name, totals.get(start), target);
}

try {
  await extension();
  await buildPage({ outfile: path.join(folder, 'page.js') });
  row(
    'all views in one file for a page, plotly and coastlines inside',
    fileSize(path.join(folder, 'page.js')),
  );
  row('library for browsers', fileSize(path.join(ROOT, 'dist', 'browser.js')));
  row('deck sheet for a telephone', fileSize(path.join(ROOT, 'dist', 'deck', 'deck-sheet.html')));
  const ephemeris = fs.readFileSync(path.join(ROOT, 'data', 'ephemeris-1950-2053.bin'));
  row('ephemeris 1950–2053', packed(ephemeris));
  const { yearCut } = await import(pathToFileURL(await bundle('year-cut.ts')).href);
  row('ephemeris of one year, as a page carries it', packed(yearCut(2027)));
  give(figures);
} finally {
  fs.rmSync(folder, { recursive: true, force: true });
}
