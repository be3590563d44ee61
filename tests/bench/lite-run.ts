/** Measures how soon a cell answers after a JupyterLite page shows its cells. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { chromium, type Browser, type Locator, type Page } from 'playwright-core';
import { sitePython, buildLite } from '../../src/publish/site/python.js';
import { figure, give, say, words } from './report/figures.mjs';
import { serve } from './site-start.js';

const ROOT = process.cwd();
/** Each kernel's cells: any first result, and for ours one that has read the library. */
const KERNELS = {
  'cocked-hat': ['1 + 1', "import { angle } from 'cocked-hat';\nangle('2°').degrees"],
  javascript: ['1 + 1', '[2].map((n) => n)[0]'],
} as const;
type KernelName = keyof typeof KERNELS;
const kernels = Object.keys(KERNELS) as KernelName[];
const PEER = "JupyterLite's JavaScript kernel";
const FIRST_S = 1.5;
/** How long a key may take to be seen. */
const PATIENCE_MS = 500;

function notebook(name: KernelName): string {
  const cells = KERNELS[name].map((source, n) => ({
    id: `cell-${n}`,
    cell_type: 'code',
    metadata: {},
    source,
    outputs: [],
    execution_count: null,
  }));
  const kernelspec = { name, display_name: name, language: 'typescript' };
  return JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: { kernelspec }, cells });
}

/** Where pip has put the peer's extension. */
function peerExtensions(): string {
  const print = "import sys; print(sys.prefix + '/share/jupyter/labextensions')";
  const { stdout } = spawnSync(sitePython(), ['-c', print], { encoding: 'utf8' });
  const folder = path.join(stdout.trim(), '@jupyterlite', 'javascript-kernel');
  if (!fs.existsSync(folder))
    throw new Error('the peer is missing: pip install -r tests/bench/requirements.txt');
  return folder;
}

async function buildSite(stage: string): Promise<string> {
  const [lite, contents, extensions] = ['lite', 'contents', 'extensions'].map((name) =>
    path.join(stage, name),
  ) as [string, string, string];
  for (const folder of [lite, contents]) fs.mkdirSync(folder);
  for (const name of kernels)
    fs.writeFileSync(path.join(contents, `${name}.ipynb`), notebook(name));
  const built = { 'cocked-hat': 'labextension', 'cocked-hat-lite': 'lite-kernel' };
  for (const [name, folder] of Object.entries(built))
    fs.cpSync(path.join(ROOT, 'dist', folder), path.join(extensions, name), { recursive: true });
  const peer = path.join(extensions, '@jupyterlite', 'javascript-kernel');
  fs.cpSync(peerExtensions(), peer, { recursive: true });
  const site = path.join(stage, 'site');
  await buildLite({ lite, contents, extensions, site }, stage);
  return site;
}

interface Start {
  /** Seconds until the cells are on the screen. */
  readonly shown: number;
  /** Seconds from then until each cell, run at once, has its result. */
  readonly results: readonly number[];
}

/** One start in a browser that has seen nothing of the site. */
async function start(browser: Browser, origin: string, name: KernelName): Promise<Start> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  try {
    const page = await context.newPage();
    const opened = performance.now();
    await page.goto(`${origin}notebooks/index.html?path=${name}.ipynb`);
    const cells = page.locator('.jp-CodeCell');
    await cells.nth(1).locator('.cm-content').waitFor({ timeout: 60_000 });
    const shown = performance.now();
    // What is run before the page has its kernel is passed over by JupyterLab without a word.
    await page.locator('.jp-Notebook-ExecutionIndicator[data-status=idle]').waitFor();
    const results: number[] = [];
    for (const n of KERNELS[name].keys()) {
      await runCell(page, cells.nth(n));
      const output = cells.nth(n).locator('.jp-OutputArea-output', { hasText: '2' });
      await output.first().waitFor({ timeout: 60_000 });
      results.push((performance.now() - shown) / 1000);
    }
    return { shown: (shown - opened) / 1000, results };
  } finally {
    await context.close();
  }
}

/** Asks again where JupyterLab, still starting, passes the key over: the prompt then stays empty. */
async function runCell(page: Page, cell: Locator): Promise<void> {
  const prompt = cell.locator('.jp-InputPrompt');
  for (let tries = 0; tries < 50; tries++) {
    await cell.locator('.cm-content').click();
    await page.keyboard.press('Shift+Enter');
    const until = performance.now() + PATIENCE_MS;
    while (performance.now() < until)
      if (/\S/.test((await prompt.innerText()).slice(1, -2))) return;
  }
  throw new Error('the page does not run its cells');
}

const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

const stage = fs.mkdtempSync(path.join(os.tmpdir(), 'bench-lite-'));
const { origin, close } = await buildSite(stage).then(serve);
const browser = await chromium.launch({
  executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  const count = Number(words[0] ?? 5);
  const starts: Record<KernelName, Start[]> = { 'cocked-hat': [], javascript: [] };
  // In turns, so that both meet the same machine.
  for (let n = 0; n < count; n++)
    for (const name of kernels) starts[name].push(await start(browser, origin, name));
  const of = (name: KernelName, n: number) => median(starts[name].map((s) => s.results[n] ?? NaN));
  const [ours, theirs] = [of('cocked-hat', 0), of('javascript', 0)];
  const shown = median(Object.values(starts).flatMap((all) => all.map((s) => s.shown)));
  const figures = [
    figure({ name: 'page with a kernel in it, until its cells show', value: shown, unit: 's' }),
    figure({
      name: 'from there to the first result',
      value: ours,
      unit: 's',
      target: { most: FIRST_S },
    }),
    figure({
      name: `first result : that of ${PEER}`,
      value: ours / theirs,
      unit: ': 1',
      peer: PEER,
      ratio: ours / theirs,
    }),
    figure({
      name: 'and to a second one with the library',
      value: of('cocked-hat', 1),
      unit: 's',
    }),
  ];
  for (const { name, value, unit } of figures)
    say(`${name.padEnd(56)} ${(value ?? NaN).toFixed(2).padStart(7)} ${unit}`);
  for (const name of kernels)
    say(
      `${name}: ${starts[name].map((s) => s.results.map((r) => r.toFixed(2)).join(', ')).join('; ')}`,
    );
  give(figures);
} finally {
  await browser.close();
  close();
  fs.rmSync(stage, { recursive: true, force: true });
}
