import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { openPage } from './browser.js';
import { ROOT } from './root.js';
import { sharedFolder } from './shared.js';

const escape = (json: string) => json.replaceAll('<', '\\u003c');

export interface Exhibit {
  readonly mime: string;
  readonly data: unknown;
}

/** The script of a page, built from the sources once a run. */
async function buildScript(folder: string): Promise<void> {
  const { buildPage } = (await import(path.join(ROOT, 'src', 'lab', 'build.mjs'))) as {
    buildPage(options: { outfile: string }): Promise<void>;
  };
  await buildPage({ outfile: path.join(folder, 'page.js') });
}

/** A plain page with these views in it, which works without a server. */
export async function galleryPage(
  folder: string,
  exhibits: readonly Exhibit[],
  { theme = 'light', width = 0, name = 'gallery' } = {},
): Promise<string> {
  const script = path.join(await sharedFolder('page', buildScript), 'page.js');
  const views = exhibits.map(
    ({ mime, data }) =>
      `<script type="application/json" data-cocked-hat="${mime}">${escape(JSON.stringify(data))}</script>`,
  );
  const background = theme === 'light' ? '#fff' : '#000';
  const file = path.join(folder, `${name}-${theme}.html`);
  fs.writeFileSync(
    file,
    `<!doctype html><html lang="en" data-ch-theme="${theme}"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Views</title><style>body{margin:8px;background:${background}${width ? `;width:${width}px` : ''}}</style>
<body>${views.join('\n')}<script src="${pathToFileURL(script).href}"></script></body></html>`,
  );
  return `file://${file}`;
}

export const PAGE_THEMES = ['light', 'dark', 'contrast', 'night'] as const;
export type PageTheme = (typeof PAGE_THEMES)[number];

/** A page of views that is open. */
export interface Gallery<State = unknown> {
  readonly page: Page;
  readonly errors: string[];
  readonly foreign: string[];
  /** What the nth view says of itself. */
  state(view?: number): Promise<State>;
  /** Moves the nth view as code does. */
  set(changes: object, view?: number): Promise<void>;
  theme(name: PageTheme): Promise<void>;
  /** How much the page is wider than its window, pixels. */
  overhang(): Promise<number>;
  close(): Promise<void>;
}

interface Handle {
  state(): unknown;
  set(state: unknown): void;
}
type Views = { cockedHatViews: Promise<Handle[]> };

/** Opens a plain page with these views and waits until they are shown. */
export async function openGallery<State = unknown>(
  browser: Browser,
  exhibits: readonly Exhibit[],
  { theme = 'light' as PageTheme, width = 1000, height = 900 } = {},
): Promise<Gallery<State>> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-gallery-'));
  const url = await galleryPage(folder, exhibits, { theme });
  const { page, errors, foreign } = await openPage(browser, { width, height });
  // Many views on a page take their time on a busy machine; the test's own limit holds.
  await page.goto(url, { timeout: 0 });
  await page.evaluate('window.cockedHatViews');
  return {
    page,
    errors,
    foreign,
    state: (view = 0) =>
      page.evaluate(
        async (n) => (await (window as unknown as Views).cockedHatViews)[n]?.state(),
        view,
      ) as Promise<State>,
    set: (changes, view = 0) =>
      page.evaluate(
        async ([to, n]) => (await (window as unknown as Views).cockedHatViews)[n]?.set(to),
        [changes, view] as const,
      ),
    async theme(name) {
      await page.evaluate((to) => {
        document.documentElement.dataset['chTheme'] = to;
        document.body.style.background = to === 'light' ? '#fff' : '#000';
      }, name);
      await page.evaluate(
        () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
      );
    },
    overhang: () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
    async close() {
      await page.context().close();
      fs.rmSync(folder, { recursive: true, force: true });
    },
  };
}
