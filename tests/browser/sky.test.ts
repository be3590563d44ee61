import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { MIME } from '../../src/views/mime.js';
import { SkyModel, startSettings } from '../../src/views/sky/sky-model.js';
import { eveningSky } from '../support/make-views.js';
import { openBrowser, shoot } from '../support/browser.js';
import { openGallery, PAGE_THEMES, type PageTheme } from '../support/gallery.js';

interface Seen {
  readonly atMs: number;
  readonly time: string;
  readonly set: readonly string[];
  readonly radialNm: number | null;
  readonly eyeHeightM: number;
}

const data = eveningSky();
const model = new SkyModel(data);

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const show = (theme: PageTheme = 'light', width = 1000) =>
  openGallery<Seen>(browser, [{ mime: MIME.sky, data }], { theme, width });

/** Pairs of texts of the drawing whose boxes overlap by more than a pixel. */
const overlaps = (page: Page) =>
  page.evaluate(() => {
    const texts = [...document.querySelectorAll('.ch-sky-drawing text')].map((e) => ({
      text: e.textContent,
      box: e.getBoundingClientRect(),
    }));
    return texts.flatMap((a, i) =>
      texts
        .slice(i + 1)
        .filter(
          (b) =>
            Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left) > 1.5 &&
            Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top) > 3,
        )
        .map((b) => `${a.text} / ${b.text}`),
    );
  });

test('the sky stands in every theme, wide and narrow, no text over another', async () => {
  for (const [width, first] of [
    [1000, 'light'],
    [360, 'night'],
  ] as const) {
    const view = await show(first, width);
    for (const theme of PAGE_THEMES) {
      await view.theme(theme);
      expect(await view.overhang(), `at ${width}, ${theme}`).toBeLessThanOrEqual(0);
      expect(await overlaps(view.page), `at ${width}, ${theme}`).toEqual([]);
      await shoot(view.page, `sky-${theme}-${width}`, true);
    }
    expect([...view.errors, ...view.foreign]).toEqual([]);
    await view.close();
  }
});

/** The strip of light, which chooses the time. */
const strip = (page: Page) => page.getByRole('slider', { name: 'Time' });
const MINUTE = 60_000;

test('keys, a typed time and a tick move the sky; what is shown is what the core gives', async () => {
  const { page, state } = await show();
  await strip(page).press('ArrowLeft');
  await strip(page).press('PageDown');
  await expect.poll(async () => (await state()).atMs).toBe(data.atMs - 11 * MINUTE);
  expect(await strip(page).getAttribute('aria-valuetext')).toMatch(
    /^2027-05-14 18:29:00 UTC, Sun 7\.\d° below the horizon$/,
  );
  const field = page.getByLabel('Time, UTC');
  await field.fill('06:00');
  await field.press('Enter');
  const settings = { ...startSettings(data), atMs: Date.UTC(2027, 4, 15, 6, 0) };
  const morning = model.bestSet(settings);
  await expect.poll(async () => (await state()).set).toEqual(morning.set ? morning.order : []);
  expect((await state()).radialNm).toBeCloseTo(morning.set?.radialNm ?? NaN, 9);
  await field.fill('6 o’clock');
  await field.press('Enter');
  await page.getByRole('alert').waitFor();
  expect(await field.inputValue()).toBe('6 o’clock');
  const away = (await state()).set[0] ?? '';
  await page.getByLabel(`Take ${away}`, { exact: true }).uncheck();
  const hidden = [away] as typeof settings.hidden;
  const other = model.bestSet({ ...settings, hidden });
  await expect.poll(async () => (await state()).set).toEqual(other.set ? other.order : []);
  expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe(
    `Take ${away}`,
  );
  await page.context().close();
});

test('a pointer and a finger drag the time along the strip; by day the reason stands and the Sun stays', async () => {
  const { page, state } = await show('light', 700);
  await strip(page).scrollIntoViewIfNeeded();
  const box = await strip(page).boundingBox();
  if (!box) throw new Error('the strip is not shown');
  const y = box.y + box.height / 2;
  const x = (part: number) => box.x + part * box.width;
  await page.mouse.move(x(0.5), y);
  await page.mouse.down();
  await page.mouse.move(x(0.3), y, { steps: 4 });
  await page.mouse.move(x(0.02), y, { steps: 4 });
  await page.mouse.up();
  // The strip spans three hours about the middle of the window, 18:35; 0.02 of it from its left end is 17:08.
  await expect.poll(async () => (await state()).time).toMatch(/17:0[89]:00 UTC$/);
  await page.locator('.ch-result.ch-flag').waitFor();
  expect(await page.locator('.ch-result').innerText()).toMatch(
    /^No set: (?:no body is|only [A-Z][\w ,]+ (?:is|are)) in reach/,
  );
  expect(await page.locator('.ch-sky-table').innerText()).toContain('Sun');
  await shoot(page, 'sky-day-700', true);
  const touched = await strip(page).boundingBox();
  if (!touched) throw new Error('the strip is not shown');
  const client = await page.context().newCDPSession(page);
  const finger = (type: 'touchStart' | 'touchMove' | 'touchEnd', part: number) =>
    client.send('Input.dispatchTouchEvent', {
      type,
      touchPoints:
        type === 'touchEnd'
          ? []
          : [{ x: touched.x + part * touched.width, y: touched.y + touched.height / 2 }],
    });
  const before = (await state()).atMs;
  await finger('touchStart', 0.5);
  await finger('touchMove', 0.7);
  await finger('touchMove', 0.9);
  await finger('touchEnd', 0.9);
  await expect.poll(async () => (await state()).atMs - before).toBeGreaterThan(30 * MINUTE);
  await page.context().close();
});

test('on paper: the set with room for time and reading, and nothing that only a screen needs', async () => {
  const { page } = await show('dark');
  await page.emulateMedia({ media: 'print' });
  expect(await page.getByRole('columnheader', { name: 'Reading' }).isVisible()).toBe(true);
  expect(await page.getByRole('button', { name: 'Print for the deck' }).isVisible()).toBe(false);
  expect(await page.locator('.ch-sky-beyond').isVisible()).toBe(false);
  const pdf = await page.pdf({ format: 'A4' });
  expect(pdf.length).toBeGreaterThan(10_000);
  await shoot(page, 'sky-paper', true);
  await page.context().close();
});
