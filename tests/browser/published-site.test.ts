import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import zlib from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Angle, sunAltitude } from '../../src/index.js';
import { findLeaks, makeEditions } from '../../src/publish/index.js';
import { workedAnswer } from '../exercises/worked-answer.js';
import { openBrowser, ROOT, shoot } from '../support/browser.js';
import { EXERCISES, publishedClass } from '../support/published-class.js';

const TYPES: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.ipynb': 'application/json',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
};
/** A folder of its own on the host: the site must not rely on standing at its root. */
const BELOW = '/school/winter/';

/** The header that the guide gives for a site's server. */
const POLICY = /^Content-Security-Policy: ([^`]+)/m
  .exec(fs.readFileSync(path.join(ROOT, 'src', 'guide', 'publishing.md'), 'utf8'))?.[1]
  ?.replace(/\s+/g, ' ')
  .trim() as string;

let site: string;
let server: http.Server;
let origin: string;
let browser: Browser;
const missing: string[] = [];

beforeAll(async () => {
  site = path.join(await publishedClass(), 'student', 'site');
  server = http.createServer((request, answer) => {
    const { pathname } = new URL(request.url ?? '/', 'http://host');
    const inside = decodeURIComponent(pathname.slice(BELOW.length));
    const file = path.join(
      site,
      inside === '' || inside.endsWith('/') ? `${inside}index.html` : inside,
    );
    if (!pathname.startsWith(BELOW) || !fs.existsSync(file) || fs.statSync(file).isDirectory()) {
      if (!/favicon|settings|workspaces/.test(pathname)) missing.push(pathname);
      answer.writeHead(404).end();
    } else
      answer
        .writeHead(200, {
          'content-type': TYPES[path.extname(file)] ?? 'application/octet-stream',
          'content-security-policy': POLICY,
        })
        .end(fs.readFileSync(file));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  origin = `http://127.0.0.1:${(server.address() as { port: number }).port}`;
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** Writes a cell as a student does: by the keyboard, the n-th code cell from 0. */
async function write(page: Page, n: number, text: string): Promise<void> {
  const cell = page.locator('.jp-CodeCell .cm-content').nth(n);
  await cell.click();
  await page.keyboard.press('Control+A');
  await page.keyboard.insertText(text);
}

describe('a JupyterLite site of the exercises', () => {
  it('is under 7 MB packed', () => {
    const files = fs
      .readdirSync(site, { recursive: true, withFileTypes: true })
      .filter((e) => e.isFile());
    const bytes = files.reduce(
      (sum, e) =>
        sum + zlib.gzipSync(fs.readFileSync(path.join(e.parentPath, e.name)), { level: 9 }).length,
      0,
    );
    expect(bytes).toBeLessThan(7_000_000);
  });
  it('holds no answer', async () => {
    const { secrets } = await makeEditions(path.join(EXERCISES, '4-star-round.ipynb'));
    // A line of an import list, `observedAltitude,`, stands in the library's own declarations.
    const sought = secrets.filter(({ kind, text }) =>
      kind === 'solution' ? !/^\w+,$/.test(text) : /[°′]/.test(text),
    );
    expect(sought.filter((s) => s.kind === 'solution').length).toBeGreaterThan(10);
    const files = fs
      .readdirSync(site, { recursive: true, withFileTypes: true })
      .filter((e) => e.isFile())
      .map((e) => ({ name: e.name, bytes: fs.readFileSync(path.join(e.parentPath, e.name)) }));
    expect(findLeaks(files, sought)).toEqual([]);
  });
  it('opens a notebook from its first page below any path, runs it and names the slip, asking nothing of another host', async () => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 1000 } });
    const page = await context.newPage();
    const foreign: string[] = [];
    page.on('request', (request) => {
      if (/^(?:https?|wss?):/.test(request.url()) && !request.url().startsWith(origin))
        foreign.push(request.url());
    });
    const refused: string[] = [];
    page.on('console', (message) => {
      if (/Content Security Policy/.test(message.text())) refused.push(message.text());
    });
    await page.goto(origin + BELOW);
    expect(await page.locator('li').count()).toBe(6);
    await page.getByRole('link', { name: 'From the sextant to the observed altitude' }).click();
    await page.locator('.jp-CodeCell .cm-content').nth(3).waitFor({ timeout: 60_000 });
    const student = 'Ana Lima';
    const answer = workedAnswer(sunAltitude({ student, method: 'tenths' }), {
      dip: (right) => (right as Angle).negated(),
    });
    await write(page, 0, `const student = '${student}';`);
    await write(
      page,
      2,
      `const answer: Record<string, unknown> = ${JSON.stringify(answer, null, 2)};`,
    );
    for (const cell of [0, 1, 2, 3]) {
      await page.locator('.jp-CodeCell .cm-content').nth(cell).click();
      await page.keyboard.press('Shift+Enter');
    }
    const feedback = page.locator('.jp-CodeCell').nth(3).locator('.jp-OutputArea');
    await expect
      .poll(() => feedback.innerText().catch(() => ''), { timeout: 60_000 })
      .toContain('Dip was given a plus sign');
    expect(foreign).toEqual([]);
    expect(missing).toEqual([]);
    // The policy that the guide gives holds nothing back that the site needs.
    expect(POLICY).toMatch(/^default-src 'self';/);
    expect(refused).toEqual([]);
    await shoot(page, 'published-site');
    await context.close();
  });
});
