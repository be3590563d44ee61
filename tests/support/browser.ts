import { spawn, type ChildProcess } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';

export const ROOT = path.resolve(import.meta.dirname, '..', '..');
/** Screenshots for a person to look at; git-ignored. */
export const SHOTS = path.join(ROOT, '.cache', 'shots');

const BROWSER_ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
  '--font-render-hinting=none',
];

/** Chromium without a window; fails when there is none. */
export async function openBrowser(): Promise<Browser> {
  const executablePath = process.env['CHROMIUM'] ?? '/usr/bin/chromium';
  if (!fs.existsSync(executablePath))
    throw new Error(`no Chromium at ${executablePath}: npm test installs it, or set CHROMIUM`);
  return chromium.launch({ executablePath, args: BROWSER_ARGS });
}

async function freePort(): Promise<number> {
  const server = net.createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as net.AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return port;
}

/** Every cell in the page, not only those in sight, and no questions asked of the reader. */
function writeSettings(folder: string): void {
  const settings: Record<string, object> = {
    'notebook-extension/tracker': { windowingMode: 'none' },
    'apputils-extension/notification': { fetchNews: 'false', checkForUpdates: false },
  };
  for (const [name, value] of Object.entries(settings)) {
    const file = path.join(folder, `${name}.jupyterlab-settings`);
    fs.mkdirSync(path.dirname(file), { recursive: true });
    fs.writeFileSync(file, JSON.stringify(value));
  }
}

export interface TestLab {
  readonly folder: string;
  url(file: string): string;
  stop(): Promise<void>;
}

async function end(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null) return;
  const ended = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGTERM');
  await Promise.race([ended, new Promise((resolve) => setTimeout(resolve, 10_000))]);
  if (child.exitCode === null) child.kill('SIGKILL');
}

/**
 * The JupyterLab of .env with our extension freshly built from the sources, serving a folder of its own, with
 * settings of its own. `files` (paths below the checkout) are copied into that folder.
 */
export async function startTestLab(files: readonly string[] = []): Promise<TestLab> {
  const python = path.join(ROOT, '.env', 'bin', 'python');
  if (!fs.existsSync(python)) throw new Error('no Python environment in .env: run npm test once');
  const home = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-lab-'));
  const folder = path.join(home, 'work');
  fs.mkdirSync(folder);
  for (const file of files)
    fs.cpSync(path.join(ROOT, file), path.join(folder, file), { recursive: true });
  const { buildLab } = (await import(path.join(ROOT, 'src', 'lab', 'build.mjs'))) as {
    buildLab(options: { outdir: string }): Promise<unknown>;
  };
  const extensions = path.join(home, 'labextensions');
  await buildLab({ outdir: path.join(extensions, 'cocked-hat') });
  writeSettings(path.join(home, 'config', 'lab', 'user-settings', '@jupyterlab'));
  const port = await freePort();
  const token = 'test';
  const args = [
    '-m',
    'jupyterlab',
    '--no-browser',
    '-y',
    '--allow-root',
    '--ServerApp.ip=127.0.0.1',
    `--ServerApp.port=${port}`,
    `--ServerApp.root_dir=${folder}`,
    `--IdentityProvider.token=${token}`,
    `--LabApp.extra_labextensions_path=${extensions}`,
    '--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate',
    '--LabApp.news_url=None',
    '--LabApp.expose_app_in_browser=True',
    '--LabApp.extension_manager=readonly',
  ];
  const log = fs.openSync(path.join(home, 'log.txt'), 'w');
  const child = spawn(python, args, {
    cwd: folder,
    stdio: ['ignore', log, log],
    env: {
      ...process.env,
      JUPYTER_PREFER_ENV_PATH: '1',
      JUPYTER_CONFIG_DIR: path.join(home, 'config'),
      JUPYTER_DATA_DIR: path.join(home, 'data'),
      JUPYTER_RUNTIME_DIR: path.join(home, 'runtime'),
      IPYTHONDIR: path.join(home, 'ipython'),
    },
  });
  const base = `http://127.0.0.1:${port}`;
  const end_ = Date.now() + 60_000;
  for (;;) {
    const answer = await fetch(`${base}/api?token=${token}`).catch(() => undefined);
    if (answer?.ok) break;
    if (child.exitCode !== null || Date.now() > end_)
      throw new Error(
        `JupyterLab did not start: ${fs.readFileSync(path.join(home, 'log.txt'), 'utf8').slice(-2000)}`,
      );
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  return {
    folder,
    url: (file) => `${base}/lab/tree/${file}?token=${token}`,
    async stop() {
      await end(child);
      fs.closeSync(log);
      fs.rmSync(home, { recursive: true, force: true });
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

/** Saves a screenshot to look at. */
export async function shoot(page: Page, name: string): Promise<void> {
  fs.mkdirSync(SHOTS, { recursive: true });
  await page.screenshot({ path: path.join(SHOTS, `${name}.png`) });
}
