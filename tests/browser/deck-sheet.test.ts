import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { SightLog } from '../../src/index.js';
import { downloaded, openBrowser, ROOT, shoot } from '../support/browser.js';

let home: string;
let file: string;
let browser: Browser;
beforeAll(async () => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'deck-'));
  const { buildDeck } = (await import(path.join(ROOT, 'src', 'publish', 'deck', 'build.mjs'))) as {
    buildDeck(options: { outfile: string }): Promise<{ bytes: number }>;
  };
  file = path.join(home, 'deck-sheet.html');
  await buildDeck({ outfile: file });
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  fs.rmSync(home, { recursive: true, force: true });
});

interface Phone {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly asked: string[];
  readonly errors: string[];
}

/** A phone of 360 × 640 without any network. */
async function phone(): Promise<Phone> {
  const context = await browser.newContext({
    viewport: { width: 360, height: 640 },
    hasTouch: true,
    isMobile: true,
    acceptDownloads: true,
  });
  await context.setOffline(true);
  const asked: string[] = [];
  const errors: string[] = [];
  context.on('request', (request) => asked.push(request.url()));
  const page = await context.newPage();
  page.on('pageerror', (error) => errors.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  await page.goto(pathToFileURL(file).href);
  return { context, page, asked, errors };
}

/** Taps once the screen takes touches again. */
async function tap(page: Page, what: Locator): Promise<void> {
  await page.locator('#deck:not([data-settling])').waitFor();
  await what.tap();
}
const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name });
async function keyIn(page: Page, reading: string): Promise<void> {
  const names: Record<string, string> = { '°': 'degrees', '.': 'point' };
  for (const sign of reading) {
    await tap(page, button(page, names[sign] ?? sign));
    // Longer than the bounce of a contact, so that 11 is two touches.
    await page.waitForTimeout(110);
  }
}
async function choose(page: Page, name: string): Promise<void> {
  await tap(page, button(page, /^Next: /));
  await tap(page, button(page, name));
}
async function markOne(page: Page, reading: string): Promise<void> {
  // Two marks nearer than a second and a half would be one.
  await page.waitForTimeout(1550);
  await tap(page, button(page, 'Mark'));
  await keyIn(page, reading);
  await tap(page, button(page, 'Done'));
}
async function saved(page: Page): Promise<string> {
  await tap(page, button(page, 'Save the log'));
  await page.locator('#deck:not([data-settling])').waitFor();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    button(page, 'Save as CSV').tap(),
  ]);
  return (await downloaded(download)).toString('utf8');
}

/** Every place that takes a touch, smaller than 56 px in one direction. */
const small = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('#deck button, #deck input, #deck select, #deck textarea')]
      .map((e) => ({ text: e.textContent, box: e.getBoundingClientRect() }))
      .filter(({ box }) => box.width < 56 || box.height < 56)
      .map(({ text }) => text),
  );
const overflow = (page: Page) =>
  page.evaluate(() => ({
    x: document.documentElement.scrollWidth - innerWidth,
    y: document.documentElement.scrollHeight - innerHeight,
  }));

test('marks, readings and a clock check come through the sight log, offline, with nothing asked of anyone', async () => {
  const { context, page, asked, errors } = await phone();
  await tap(page, button(page, 'clock not checked'));
  await tap(page, button(page, 'The minute begins'));
  const check = await page.locator('.moments').innerText();
  await tap(page, button(page, 'Back'));
  await choose(page, 'Sun, lower limb');
  await tap(page, button(page, 'Conditions'));
  await page.getByLabel('Observer').fill('A');
  await tap(page, button(page, 'Index error'));
  await keyInIndex(page);
  // The next page of the conditions, not the sheet: there is more to note.
  await tap(page, button(page, 'Next'));
  await page.getByLabel('Height of eye').fill('2.6 m');
  await tap(page, button(page, 'Course'));
  await page.getByLabel('Course').fill('312°');
  await page.getByLabel('Speed').fill('5.2 kn');
  await tap(page, button(page, 'Back'));
  const began = Date.now();
  await markOne(page, '41°18.6');
  await markOne(page, '41°11.1');
  const ended = Date.now();
  const csv = await saved(page);
  const log = SightLog.fromCsv(csv);
  expect(log.report.refused).toEqual([]);
  expect(log.report.queries).toEqual([]);
  const rows = log.rows() as unknown as Record<string, unknown>[];
  expect(rows.map((r) => Number(r['readingDeg']).toFixed(4))).toEqual([
    (41 + 18.6 / 60).toFixed(4),
    (41 + 11.1 / 60).toFixed(4),
  ]);
  for (const row of rows) {
    expect(row).toMatchObject({ body: 'Sun', limb: 'lower', observer: 'A', eyeHeightM: 2.6 });
    expect(row).toMatchObject({ courseDeg: 312, speedKn: 5.2 });
    expect(row['indexErrorArcmin']).toBeCloseTo(-1.4, 9);
    // The mark stands when the finger came down, to a tenth of a second.
    expect(Number(row['watchMs'])).toBeGreaterThan(began);
    expect(Number(row['watchMs'])).toBeLessThan(ended);
    const errorS = Number(row['watchErrorS']);
    expect(Math.abs(Number(row['watchMs']) - Number(row['utcMs']) - errorS * 1000)).toBeLessThan(
      101,
    );
    expect(String(row['remarks'])).toContain('by radio time signal');
    expect(check).toContain(`${Math.abs(errorS).toFixed(1)} s`);
  }
  expect(asked.filter((url) => !url.startsWith('file:') && !url.startsWith('blob:'))).toEqual([]);
  expect(errors).toEqual([]);
  await context.close();
});

async function keyInIndex(page: Page): Promise<void> {
  for (const name of ['1', '.', '4', 'Off the arc']) {
    await tap(page, button(page, name));
    await page.waitForTimeout(110);
  }
}

test('a double press is one mark, undo takes back, and a page that dies loses nothing', async () => {
  const { context, page, errors } = await phone();
  await choose(page, 'Moon, upper limb');
  await page.locator('#deck:not([data-settling])').waitFor();
  const box = (await button(page, 'Mark').boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.touchscreen.tap(x, y);
  expect(await page.locator('.said').innerText()).toBe('');
  await page.touchscreen.tap(x, y);
  await page.touchscreen.tap(x, y - 100);
  expect(await page.locator('.said').innerText()).toContain('taken as one mark');
  // The third touch fell on a key that had come under the thumb: it counts for nothing.
  expect(await page.locator('.display').innerText()).toBe('–');
  await keyIn(page, '23°0');
  const crash = await context.newPage();
  await page.close();
  await crash.goto(pathToFileURL(file).href);
  expect(await crash.locator('.marks li').count()).toBe(1);
  expect(await crash.locator('.marks').innerText()).toContain('23°0′');
  await tap(crash, crash.locator('.marks button').first());
  await keyIn(crash, '7.5');
  await tap(crash, button(crash, 'Done'));
  expect(await crash.locator('.marks').innerText()).toContain('23°07.5′');
  await tap(crash, button(crash, 'Undo'));
  expect(await crash.locator('.marks').innerText()).toContain('23°0′');
  await tap(crash, button(crash, 'Redo'));
  expect(await crash.locator('.marks').innerText()).toContain('23°07.5′');
  await crash.reload();
  const log = SightLog.fromCsv(await saved(crash));
  expect(log.numRows()).toBe(1);
  expect(log.rows()[0]).toMatchObject({ body: 'Moon', limb: 'upper' });
  expect(errors).toEqual([]);
  await context.close();
});

test('every screen fits 360 × 640 with places of 56 px, in light and in red on black', async () => {
  const { context, page } = await phone();
  const screens: Record<string, () => Promise<void>> = {
    empty: async () => {},
    bodies: () => tap(page, button(page, /^Next: /)),
    stars: () => tap(page, button(page, /^Acamar to /)),
    sheet: async () => {
      await tap(page, button(page, 'Aldebaran'));
      await markOne(page, '34°17.6');
      await choose(page, 'Sun, lower limb');
      for (const reading of ['41°1', '4']) await markOne(page, reading);
    },
    reading: () => tap(page, page.locator('.marks button').last()),
    more: () => tap(page, button(page, 'More')),
    clock: async () => {
      await tap(page, button(page, 'Back'));
      await tap(page, button(page, 'Back'));
      await tap(page, button(page, /^clock/));
      await tap(page, button(page, 'The minute begins'));
    },
    conditions: async () => {
      await tap(page, button(page, 'Back'));
      await tap(page, button(page, 'Conditions'));
      await tap(page, button(page, 'Horizon'));
    },
    index: () => tap(page, button(page, 'Index error')),
    save: async () => {
      await tap(page, button(page, 'Back'));
      await tap(page, button(page, 'Save the log'));
    },
  };
  for (const [name, go] of Object.entries(screens)) {
    await go();
    expect(await small(page), name).toEqual([]);
    const { x, y } = await overflow(page);
    expect(x, `${name} is too wide`).toBeLessThanOrEqual(0);
    expect(y, `${name} is too high`).toBeLessThanOrEqual(0);
    for (const theme of ['light', 'night']) {
      await page.evaluate((t) => document.documentElement.setAttribute('data-ch-theme', t), theme);
      await shoot(page, `deck-${name}-${theme}`);
    }
  }
  await context.close();
});
