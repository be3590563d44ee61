import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { readingText } from '../../src/views/instrument/misreading.js';
import { instrumentData } from '../../src/views/instrument/instrument-data.js';
import { trainerReading } from '../../src/views/instrument/trainer-reading.js';
import { MIME } from '../../src/views/mime.js';
import { openBrowser, openPage, SHOTS } from '../support/browser.js';
import { galleryPage } from '../support/gallery.js';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-instrument-'));
  fs.mkdirSync(SHOTS, { recursive: true });
  browser = await openBrowser();
}, 60_000);
afterAll(async () => {
  await browser?.close();
  fs.rmSync(folder, { recursive: true, force: true });
});

async function show(
  open: 'reading' | 'trainer' | 'check',
  theme: string,
  width = 1000,
): Promise<{ page: Page; errors: string[] }> {
  const data = instrumentData('34°17.6′', { open, seed: 5 });
  const url = await galleryPage(folder, [{ mime: MIME.instrument, data }], {
    theme,
    name: `${open}-${width}`,
  });
  const { page, errors } = await openPage(browser, { width, height: 900 });
  await page.goto(url);
  await page.locator('.ch-instrument').waitFor();
  return { page, errors };
}

for (const theme of ['light', 'dark', 'contrast', 'night'])
  test(`the sextant, the trainer and the index check stand in the ${theme} theme and a narrow page`, async () => {
    for (const open of ['reading', 'trainer', 'check'] as const)
      for (const width of [1000, 360]) {
        const { page, errors } = await show(open, theme, width);
        const { scroll, inner } = await page.evaluate(() => ({
          scroll: document.documentElement.scrollWidth,
          inner: innerWidth,
        }));
        expect(scroll, `${open} at ${width}`).toBeLessThanOrEqual(inner);
        await page.screenshot({
          path: `${SHOTS}/sextant-${open}-${theme}-${width}.png`,
          fullPage: true,
        });
        expect(errors).toEqual([]);
        await page.context().close();
      }
  }, 90_000);

test('keys and a written reading turn the drum; a wrong one is named and kept', async () => {
  const { page } = await show('reading', 'light');
  const sextant = page.getByRole('slider', { name: 'Reading of the sextant' });
  await sextant.press('ArrowUp');
  await sextant.press('ArrowRight');
  expect(await sextant.getAttribute('aria-valuetext')).toBe('34°18.7′');
  const field = page.getByLabel('Set the reading');
  await field.fill('0°01.4′ off the arc');
  await field.press('Enter');
  expect(await page.locator('.ch-result').first().innerText()).toContain(
    'drum 58′, vernier line 6; off the arc, 60′ − 58.6′ = 1.4′',
  );
  await field.fill('34 degres');
  await field.press('Enter');
  await page.getByRole('alert').waitFor();
  expect(await field.inputValue()).toBe('34 degres');
  await page.context().close();
});

test('the trainer names a misreading and keeps the count over a reload', async () => {
  const { page } = await show('trainer', 'light');
  const shown = trainerReading(5, 0);
  const field = page.getByLabel('Your reading');
  await field.fill(readingText(shown + 1));
  await field.press('Enter');
  expect(await page.locator('.ch-verdict').innerText()).toContain('whole degree');
  await page.getByRole('button', { name: 'Next' }).click();
  await field.fill(readingText(trainerReading(5, 1)));
  await page.getByRole('button', { name: 'Judge it' }).click();
  expect(await page.locator('.ch-verdict').innerText()).toMatch(/^Right/);
  await page.reload();
  await expect
    .poll(() => page.locator('.ch-instrument').innerText())
    .toContain('1 right of 2; whole degree 1');
  await page.context().close();
});

test('the index check on the Sun finds the planted error and the semi-diameter', async () => {
  const { page } = await show('check', 'light');
  await page.getByLabel('Check by').selectOption('Sun');
  const drum = page.getByLabel('Turn the drum').last();
  // Limbs touch two semi-diameters of 15.9′ from the planted 1.4′ off the arc.
  for (const contact of [2 * 15.9 - 1.4, -2 * 15.9 - 1.4]) {
    await drum.fill(contact.toFixed(1));
    await page.getByRole('button', { name: 'Take this reading' }).click();
  }
  const result = await page.locator('.ch-index-result').innerText();
  expect(result).toContain('1.4′ off the arc');
  expect(result).toContain('15.9′');
  await page.context().close();
});
