import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { plottingSheet } from '../../src/views/chart/sheet.js';
import { ChartModel } from '../../src/views/chart/chart-model.js';
import { fixInputs } from '../../src/views/chart/chart-inputs.js';
import { fixRows, fixSummary } from '../../src/views/chart/chart-text.js';
import { sheetPage } from '../../src/lab/render/chart/print-sheet.js';
import { MIME } from '../../src/views/mime.js';
import { chartBundle } from '../../src/views/chart/chart-view.js';
import { latitudeMinuteM } from '../../src/views/chart/mercator.js';
import { allViews } from '../support/all-views.js';
import { openBrowser, openPage, shoot } from '../support/browser.js';
import { galleryPage } from '../support/gallery.js';
import { sampleFix } from '../support/sample-fix.js';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-pages-'));
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  fs.rmSync(folder, { recursive: true, force: true });
});

const exhibits = async () =>
  Object.values(await allViews()).map((bundle) => {
    const mime = Object.keys(bundle)[0] ?? '';
    return { mime, data: bundle[mime] };
  });

/** Texts of the drawings that lie over one another by more than a pixel or two. */
const overlaps = (page: Page) =>
  page.evaluate(() => {
    const found: string[] = [];
    for (const svg of document.querySelectorAll('.ch-canvas svg, .ch-regions svg')) {
      const texts = [...svg.querySelectorAll('text')].map((e) => {
        // The box of a turned text is larger than the text: it stands for itself by its middle line.
        const { x, y, width, height } = e.getBBox();
        const m = e.getScreenCTM();
        const at = (px: number, py: number) => ({
          x: (m?.a ?? 1) * px + (m?.c ?? 0) * py + (m?.e ?? 0),
          y: (m?.b ?? 0) * px + (m?.d ?? 1) * py + (m?.f ?? 0),
        });
        const steps = Math.max(2, Math.round(width / 4));
        const line = Array.from({ length: steps + 1 }, (_, i) =>
          at(x + (width * i) / steps, y + height / 2),
        );
        return { text: e.textContent ?? '', line };
      });
      texts.forEach((a, i) =>
        texts.slice(i + 1).forEach((b) => {
          const touch = a.line.some((p) =>
            b.line.some((q) => Math.hypot(p.x - q.x, p.y - q.y) < 7),
          );
          if (touch) found.push(`${a.text} / ${b.text}`);
        }),
      );
    }
    return found;
  });

test('from a telephone to a projector no view is wider than its page and no text of a chart lies on another', async () => {
  for (const width of [360, 620, 1000, 1920]) {
    const url = await galleryPage(
      folder,
      [...(await exhibits()), { mime: MIME.chart, data: chartBundle(sampleFix(12))[MIME.chart] }],
      { name: `w${width}` },
    );
    const { page, errors } = await openPage(browser, { width, height: 900 });
    await page.goto(url);
    await page.evaluate('window.cockedHatViews');
    // Plots are drawn to the width a moment after their view is there.
    await page.waitForFunction(
      () =>
        document.querySelectorAll('.ch-residuals .main-svg, .ch-figure-card .main-svg').length >= 2,
    );
    const wide = () =>
      page
        .locator('.ch')
        .evaluateAll((views) =>
          views.filter((e) => e.scrollWidth > e.clientWidth + 1).map((e) => e.className),
        );
    await expect.poll(wide, { message: `at ${width} px` }).toEqual([]);
    expect(await page.locator('.ch-detail').first().isVisible(), 'steps begin closed').toBe(false);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      width,
    );
    expect(await overlaps(page), `at ${width} px`).toEqual([]);
    expect(errors).toEqual([]);
    await shoot(page, `all-${width}px`, true);
    await page.context().close();
  }
});

test('a printed plotting sheet keeps its scale: the check bar measures 100 mm, a minute of latitude what its caption says', async () => {
  const fix = sampleFix();
  const { scene } = ChartModel.from(fixInputs(fix)).with({});
  for (const paper of ['A4', 'Letter'] as const) {
    const sheet = plottingSheet(scene, {
      paper,
      title: 'Dawn round',
      summary: fixSummary(fix),
      rows: fixRows(fix),
    });
    const file = path.join(folder, `sheet-${paper}.html`);
    fs.writeFileSync(file, sheetPage(sheet));
    const { page } = await openPage(browser, { width: 840, height: 1160 });
    await page.goto(`file://${file}`);
    const PX_PER_MM = 96 / 25.4;
    const bar = await page.locator('.ch-check-bar rect').evaluateAll((rects) => {
      const boxes = rects.map((r) => (r as SVGRectElement).getBoundingClientRect());
      return Math.max(...boxes.map((b) => b.right)) - Math.min(...boxes.map((b) => b.left));
    });
    // The stroke of the bar, 0.2 mm, stands half outside.
    expect(bar / PX_PER_MM).toBeCloseTo(100, 0);
    expect(Math.abs(bar / PX_PER_MM - 100)).toBeLessThan(0.3);
    const said = Number(
      /1′ of latitude is ([\d.]+) mm/.exec(
        await page
          .locator('svg')
          .innerText()
          .catch(() => ''),
      )?.[1] ?? /1′ of latitude is ([\d.]+) mm/.exec(await page.content())?.[1],
    );
    expect(said).toBeCloseTo((latitudeMinuteM(fix.position.latDeg) * 1000) / sheet.scale, 1);
    // Two parallels a minute apart on the sheet itself.
    const parallels = await page.locator('svg line').evaluateAll((lines) =>
      lines
        .filter((l) => l.getAttribute('y1') === l.getAttribute('y2'))
        .map((l) => l.getBoundingClientRect().top)
        .sort((a, b) => a - b),
    );
    const step =
      ((parallels.at(-1) ?? 0) - (parallels[0] ?? 0)) / (parallels.length - 1) / PX_PER_MM;
    expect(Math.abs(step - said)).toBeLessThan(0.15);
    const pdf = await page.pdf({ preferCSSPageSize: true });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length).toBe(1);
    await shoot(page, `sheet-${paper}`);
    await page.context().close();
  }
});

test('the chart is worked by keys alone: the DR moves, the chart moves, a sight is switched off', async () => {
  const url = await galleryPage(
    folder,
    [{ mime: MIME.chart, data: chartBundle(sampleFix())[MIME.chart] }],
    { name: 'keys' },
  );
  const { page } = await openPage(browser, { width: 1000, height: 900 });
  await page.goto(url);
  await page.evaluate('window.cockedHatViews');
  const state = () =>
    page.evaluate(async () =>
      (
        (
          await (window as never as { cockedHatViews: Promise<{ state(): never }[]> })
            .cockedHatViews
        )[0] as { state(): Record<string, never> }
      ).state(),
    );
  const canvas = page.locator('.ch-canvas');
  await canvas.focus();
  const label = async () =>
    (await canvas.locator('svg text').allTextContents()).filter((t) => / [NS]$/.test(t)).join();
  const before = await label();
  for (let i = 0; i < 6; i++) await page.keyboard.press('ArrowUp');
  await expect.poll(label).not.toBe(before);
  await page.keyboard.press('Shift+ArrowRight');
  await expect.poll(async () => Object.keys(await state())).toContain('dr');
  const box = page.locator('.ch-sights input').first();
  await box.focus();
  await page.keyboard.press('Space');
  await expect.poll(async () => ((await state()) as { off?: string[] }).off?.length).toBe(1);
});

test('on paper the controls are left out and the figures stay', async () => {
  const url = await galleryPage(folder, await exhibits(), { name: 'print', theme: 'night' });
  const { page } = await openPage(browser, { width: 900, height: 900 });
  await page.goto(url);
  await page.evaluate('window.cockedHatViews');
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('.ch-chart .ch-side').isVisible()).toBe(false);
  expect(await page.locator('.ch-sights').isVisible()).toBe(true);
  const paper = await page
    .locator('.ch-chart')
    .evaluate((e) => getComputedStyle(e).backgroundColor);
  expect(paper).toBe('rgb(255, 255, 255)');
});
