import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { chromium, type Browser, type Download, type Locator, type Page } from 'playwright-core';
import type { LabAddress } from './lab-server.js';
import { ROOT } from './root.js';
import { sharedService } from './shared.js';

export { ROOT };
/** Screenshots for a person to look at; git-ignored. */
export const SHOTS = path.join(ROOT, '.cache', 'shots');

/** The Chromium that tests of one run share; closing it ends what this file has opened in it. `kind`: what it is to show */
export async function openBrowser(kind: 'pages' | 'lab' = 'pages'): Promise<Browser> {
  return chromium.connect(await sharedService<string>(`browser/${kind}`));
}

export interface TestLab {
  readonly folder: string;
  url(file: string): string;
  stop(): Promise<void>;
}

/**
 * The JupyterLab that tests of one run share, in a folder and a workspace of its own for each caller. `files` (paths below
 * the checkout) are copied into that folder. Settings belong to all: a test that needs a theme chooses it.
 */
export async function startTestLab(files: readonly string[] = []): Promise<TestLab> {
  const { base, token, root } = await sharedService<LabAddress>('lab');
  const folder = fs.mkdtempSync(path.join(root, 'test-'));
  const name = path.basename(folder);
  for (const file of files)
    fs.cpSync(path.join(ROOT, file), path.join(folder, file), { recursive: true });
  const sessions = `${base}/api/sessions`;
  const headers = { authorization: `token ${token}` };
  return {
    folder,
    url: (file) => `${base}/lab/workspaces/${name}/tree/${name}/${file}?token=${token}`,
    async stop() {
      const answer = await fetch(sessions, { headers });
      const running = (await answer.json()) as { id: string; path: string }[];
      for (const { id } of running.filter((session) => session.path.startsWith(`${name}/`)))
        await fetch(`${sessions}/${id}`, { method: 'DELETE', headers });
      fs.rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** A page that records what it asks of any other host and what it throws. */
export async function openPage(
  browser: Browser,
  options: { width?: number; height?: number; colorScheme?: 'light' | 'dark' } = {},
): Promise<{ page: Page; errors: string[]; foreign: string[] }> {
  const context = await browser.newContext({
    viewport: { width: options.width ?? 1280, height: options.height ?? 900 },
    colorScheme: options.colorScheme ?? 'light',
    permissions: ['clipboard-read', 'clipboard-write'],
  });
  const page = await context.newPage();
  const errors: string[] = [];
  const foreign: string[] = [];
  page.on('pageerror', (error) => errors.push(String(error)));
  page.on('request', (request) => {
    const { protocol, hostname } = new URL(request.url());
    if (/^(https?|wss?):$/.test(protocol) && hostname !== '127.0.0.1') foreign.push(request.url());
  });
  return { page, errors, foreign };
}

/** A notebook file for our kernel; each cell has at least its source. */
function notebookFile(cells: readonly Readonly<Record<string, unknown>>[]): string {
  return JSON.stringify({
    nbformat: 4,
    nbformat_minor: 5,
    metadata: {
      kernelspec: {
        name: 'cocked-hat',
        display_name: 'TypeScript · Cocked Hat',
        language: 'typescript',
      },
      language_info: { name: 'typescript' },
    },
    cells: cells.map((cell, i) => ({
      id: `cell-${i}`,
      cell_type: 'code',
      execution_count: null,
      metadata: {},
      outputs: [],
      ...cell,
    })),
  });
}

/** A notebook file of these cells, not run yet. */
export const notebookOfCells = (sources: readonly string[]): string =>
  notebookFile(sources.map((source) => ({ source })));

/** A notebook file whose cells already carry these outputs: shows views without any kernel. */
export const notebookWithOutputs = (bundles: readonly Record<string, unknown>[]): string =>
  notebookFile(
    bundles.map((data, i) => ({
      execution_count: i + 1,
      source: `// view ${i + 1}`,
      outputs: [{ output_type: 'execute_result', execution_count: i + 1, data, metadata: {} }],
    })),
  );

/**
 * Saves a screenshot to look at, of a page or a part of it, in .cache/shots: only when SHOTS=1 asks for it, because no
 * test rests on them and they take a third of the time.
 */
export async function shoot(what: Page | Locator, name: string, fullPage = false): Promise<void> {
  if (!process.env['SHOTS']) return;
  const file = path.join(SHOTS, `${name}.png`);
  if ('goto' in what) await what.screenshot({ path: file, fullPage });
  else await what.screenshot({ path: file });
}

/** What a page handed out as a file. */
export async function downloaded(download: Download): Promise<Buffer> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-download-'));
  const file = path.join(folder, 'file');
  await download.saveAs(file);
  const bytes = fs.readFileSync(file);
  fs.rmSync(folder, { recursive: true });
  return bytes;
}
