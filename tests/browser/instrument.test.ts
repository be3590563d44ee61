import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser } from 'playwright-core';
import { readingText } from '../../src/views/instrument/misreading.js';
import { instrumentData } from '../../src/views/instrument/instrument-data.js';
import { trainerReading } from '../../src/views/instrument/trainer-reading.js';
import { MIME } from '../../src/views/mime.js';
import { openBrowser, shoot } from '../support/browser.js';
import { openGallery, PAGE_THEMES, type PageTheme } from '../support/gallery.js';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const PANES = ['reading', 'trainer', 'check'] as const;
const show = (open: (typeof PANES)[number], theme: PageTheme = 'light', width = 1000) =>
  openGallery(
    browser,
    [{ mime: MIME.instrument, data: instrumentData('34°17.6′', { open, seed: 5 }) }],
    { theme, width },
  );

test('the sextant, the trainer and the index check stand in every theme and in a narrow page', async () => {
  for (const [width, first] of [
    [1000, 'light'],
    [360, 'night'],
  ] as const) {
    const view = await show('reading', first, width);
    for (const open of PANES) {
      await view.set({ open });
      for (const theme of PAGE_THEMES) {
        await view.theme(theme);
        expect(await view.overhang(), `${open} at ${width}, ${theme}`).toBeLessThanOrEqual(0);
        await shoot(view.page, `sextant-${open}-${theme}-${width}`, true);
      }
    }
    expect(view.errors).toEqual([]);
    await view.close();
  }
});

test('keys and a written reading turn the drum; a wrong one is named and kept', async () => {
  const { page } = await show('reading');
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
  const { page } = await show('trainer');
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
  const { page } = await show('check');
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
