import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import {
  dip,
  fix,
  formatLatitude,
  formatLongitude,
  observedAltitude,
  sight,
} from '../../src/index.js';
import { chartBundle } from '../../src/views/chart/chart-view.js';
import { MIME } from '../../src/views/mime.js';
import { residualsBundle } from '../../src/views/residuals/residual-view.js';
import { workingBundle } from '../../src/views/working/working-view.js';
import { downloaded, openBrowser, openPage } from '../support/browser.js';
import { galleryPage } from '../support/gallery.js';
import { sampleFix, sampleRound } from '../support/sample-fix.js';

type Handle = { state(): Record<string, unknown>; set(state: unknown): void };
type Views = { cockedHatViews: Promise<Handle[]> };

let browser: Browser;
let folder: string;
let page: Page;
let errors: string[];
beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-interaction-'));
  browser = await openBrowser();
  const url = await galleryPage(folder, [
    { mime: MIME.chart, data: chartBundle(sampleFix(12))[MIME.chart] },
    { mime: MIME.residuals, data: residualsBundle(sampleFix(12))[MIME.residuals] },
  ]);
  ({ page, errors } = await openPage(browser, { width: 1100, height: 1000 }));
  await page.goto(url);
  await page.evaluate('window.cockedHatViews');
  await page.locator('.ch-residuals .main-svg').first().waitFor();
});
afterAll(async () => {
  await browser?.close();
  fs.rmSync(folder, { recursive: true, force: true });
});

const state = (view: number) =>
  page.evaluate(async (i) => (await (window as unknown as Views).cockedHatViews)[i]?.state(), view);
const chart = () => page.locator('.ch-chart');
const summary = () => chart().locator('.ch-result').innerText();

test('switching a sight off gives the fix of the others, as the core works it out', async () => {
  await chart()
    .getByRole('checkbox', { name: /^Diphda/ })
    .uncheck();
  const rest = sampleRound(12).filter((o) => o.body !== 'Diphda');
  const { settings, instant } = sampleFix(12);
  const expected = fix(rest, { at: instant, ...(settings.dr ? { dr: settings.dr } : {}) });
  const { latDeg, lonDeg } = expected.position;
  await expect.poll(summary).toContain(`${formatLatitude(latDeg)}, ${formatLongitude(lonDeg)}`);
  await chart()
    .getByRole('checkbox', { name: /^Diphda/ })
    .check();
});

test('a sight pointed at in the residuals is marked on the chart, and the other way', async () => {
  await page.locator('.ch-points tr', { hasText: 'Shaula' }).hover();
  const line = chart().locator('path[data-line^="Shaula"]');
  await expect.poll(() => line.getAttribute('class')).toContain('ch-chosen-line');
  await chart().locator('.ch-sights tr', { hasText: 'Vega' }).hover();
  const row = page.locator('.ch-points tr', { hasText: 'Vega' });
  await expect.poll(() => row.getAttribute('class')).toContain('ch-chosen');
  await chart().locator('path[data-hit^="Peacock"]').dispatchEvent('pointerover');
  const peacock = page.locator('.ch-points tr', { hasText: 'Peacock' });
  await expect.poll(() => peacock.getAttribute('class')).toContain('ch-chosen');
});

test('a plot that is drawn while out of the page, as JupyterLab keeps cells out of sight, has the colours of the page when it is back', async () => {
  const looks = () =>
    page.locator('.ch-residuals').evaluate((view) => {
      const paper = getComputedStyle(view).getPropertyValue('--ch-paper').trim();
      const plot = view.querySelector<HTMLElement>('.ch-plot .main-svg');
      const probe = document.createElement('i');
      probe.style.background = paper;
      view.append(probe);
      const wanted = getComputedStyle(probe).backgroundColor;
      probe.remove();
      return { wanted, drawn: plot && getComputedStyle(plot).backgroundColor };
    });
  await page.evaluate(async () => {
    const host = document.querySelector('.ch-residuals')?.parentElement as HTMLElement;
    const next = host.nextSibling;
    const parent = host.parentElement as HTMLElement;
    host.remove();
    const views = await (window as unknown as Views).cockedHatViews;
    views[1]?.set({ rejected: [] });
    await new Promise((done) => setTimeout(done, 300));
    parent.insertBefore(host, next);
  });
  const { wanted } = await looks();
  await expect.poll(async () => (await looks()).drawn).toBe(wanted);
});

test('the DR follows the pointer, and the intercepts are those from where it is put', async () => {
  const canvas = chart().locator('.ch-canvas');
  await canvas.scrollIntoViewIfNeeded();
  const dr = await chart().locator('.ch-dr circle').last().boundingBox();
  if (!dr) throw new Error('no DR on the chart');
  const [x, y] = [dr.x + dr.width / 2, dr.y + dr.height / 2];
  const before = await chart().locator('.ch-sights tbody tr').first().innerText();
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 60, y - 40, { steps: 6 });
  await page.mouse.up();
  await expect.poll(async () => Object.keys((await state(0)) ?? {})).toContain('dr');
  const moved = ((await state(0)) as { dr: { latDeg: number; lonDeg: number } }).dr;
  expect(moved.lonDeg).toBeLessThan(-27.1 / 60);
  expect(await chart().locator('.ch-sights tbody tr').first().innerText()).not.toBe(before);
  await chart().getByRole('button', { name: 'Back to what was entered' }).click();
});

test('a common error is found and said', async () => {
  await chart().getByText('Find an error common to all sights').click();
  const { commonBias } = sampleFix(12, { commonBias: true });
  const size = Math.abs(commonBias?.value.arcminutes ?? NaN).toFixed(1);
  await expect.poll(summary).toContain(`${size}′ ±`);
  await chart().getByText('Find an error common to all sights').click();
});

test('a sight is rejected with a reason, the residuals follow, and it can be restored', async () => {
  const residuals = page.locator('.ch-residuals');
  await residuals.getByRole('button', { name: 'Diphda' }).click();
  await residuals.getByRole('button', { name: 'Reject this sight' }).click();
  expect(((await state(1)) as { rejected: unknown[] }).rejected).toEqual([]);
  await residuals.getByLabel('Reason').fill('hazy horizon');
  await residuals.getByRole('button', { name: 'Reject this sight' }).click();
  const { rejected } = (await state(1)) as { rejected: { key: string; reason: string }[] };
  expect(rejected).toEqual([{ key: expect.stringMatching(/^Diphda /), reason: 'hazy horizon' }]);
  const row = residuals.locator('tr', { hasText: 'Diphda' });
  expect(await row.innerText()).toContain('no: hazy horizon');
  await residuals.getByRole('button', { name: 'Restore this sight' }).click();
  expect(((await state(1)) as { rejected: unknown[] }).rejected).toEqual([]);
});

test('a saved SVG stands alone, in colours instead of roles; a saved PNG is a picture', async () => {
  for (const [name, check] of [
    ['Save SVG', (b: Buffer) => b.includes('<svg') && !b.includes('var(--')],
    ['Save PNG', (b: Buffer) => b.subarray(1, 4).toString() === 'PNG'],
  ] as const) {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      chart().getByRole('button', { name }).click(),
    ]);
    expect(check(await downloaded(download)), name).toBe(true);
  }
});

test('the coastline comes when the chart is wide enough for it, and the bodies stand where they were overhead', async () => {
  await chart().getByRole('button', { name: 'Show the circles' }).click();
  await expect
    .poll(() => chart().locator('.ch-canvas svg text', { hasText: 'GP ' }).count())
    .toBeGreaterThan(5);
  await expect
    .poll(() =>
      chart()
        .locator('.ch-canvas path')
        .evaluateAll((paths) => Math.max(...paths.map((p) => p.getAttribute('d')?.length ?? 0))),
    )
    .toBeGreaterThan(20_000);
  expect(errors).toEqual([]);
});

test('a working copied as text is the text of the library; one correction by itself shows its formula; no width needs sideways scrolling', async () => {
  const forenoon = sight({
    body: 'Sun',
    reading: '39°13.7′',
    time: '2027-05-11 09:42:17 UTC',
    eyeHeight: '2.6 m',
    indexError: 'none',
  });
  const bundle = workingBundle(observedAltitude(forenoon));
  const alone = workingBundle(dip(forenoon));
  const views = [bundle, alone].map((b) => ({ mime: MIME.working, data: b[MIME.working] }));
  const url = await galleryPage(folder, views, { name: 'copy' });
  const { page: other } = await openPage(browser);
  await other.goto(url);
  const [whole, single] = [0, 1].map((i) => other.locator('.ch-working').nth(i));
  await whole!.getByRole('button', { name: 'Copy as text' }).click();
  await expect
    .poll(() => other.evaluate(() => navigator.clipboard.readText()))
    .toBe(bundle['text/plain']);
  expect(await whole!.locator('.ch-detail:visible').count()).toBe(0);
  await single!.locator('.ch-detail:visible .katex').waitFor();
  expect(await single!.getByRole('button', { name: /all steps/ }).count()).toBe(0);
  // Its caution is told once.
  expect((await single!.innerText()).match(/least certain correction/g)?.length).toBe(1);
  for (let width = 340; width <= 1000; width += 20) {
    await other.setViewportSize({ width, height: 900 });
    const over = await other
      .locator('.ch-working')
      .evaluateAll((found) => found.map((e) => e.scrollWidth - e.clientWidth));
    expect(Math.max(...over), `at ${width} px`).toBeLessThanOrEqual(1);
  }
});
