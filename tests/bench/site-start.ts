/** How long a published site takes from the link on its first page to the first result of a cell. */
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import type { Browser } from 'playwright-core';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.ipynb': 'application/json',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
};

/** Serves a built site on a port of its own. */
export async function serve(site: string): Promise<{ origin: string; close: () => void }> {
  const server = http.createServer((request, answer) => {
    const { pathname } = new URL(request.url ?? '/', 'http://host');
    const inside = decodeURIComponent(pathname);
    const file = path.join(site, inside.endsWith('/') ? `${inside}index.html` : inside);
    if (!fs.existsSync(file) || fs.statSync(file).isDirectory()) return answer.writeHead(404).end();
    const type = TYPES[path.extname(file)] ?? 'application/octet-stream';
    return answer.writeHead(200, { 'content-type': type }).end(fs.readFileSync(file));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as { port: number };
  return { origin: `http://127.0.0.1:${port}/`, close: () => server.close() };
}

export interface SiteStart {
  /** Seconds until the notebook's cells are on the screen: JupyterLite alone. */
  readonly cells: number;
  /** Seconds until the second cell, which asks the library for a question, shows its value. */
  readonly first: number;
}

/** One start in a browser that has seen nothing of the site. */
export async function startOf(browser: Browser, site: string): Promise<SiteStart> {
  const { origin, close } = await serve(site);
  const context = await browser.newContext({ viewport: { width: 1280, height: 1000 } });
  try {
    const page = await context.newPage();
    await page.goto(origin);
    const since = performance.now();
    const seconds = () => (performance.now() - since) / 1000;
    await page.locator('li a').first().click();
    await page.locator('.jp-CodeCell .cm-content').nth(1).waitFor({ timeout: 60_000 });
    const cells = seconds();
    await page.locator('.jp-CodeCell .cm-content').first().click();
    await page.keyboard.press('Shift+Enter');
    await page.locator('.jp-CodeCell .cm-content').nth(1).click();
    await page.keyboard.press('Shift+Enter');
    await page
      .locator('.jp-CodeCell')
      .nth(1)
      .locator('.jp-OutputArea-output')
      .first()
      .waitFor({ timeout: 60_000 });
    return { cells, first: seconds() };
  } finally {
    await context.close();
    close();
  }
}
