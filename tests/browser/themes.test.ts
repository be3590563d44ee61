import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { allViews } from '../support/all-views.js';
import {
  notebookWithOutputs,
  openBrowser,
  openPage,
  shoot,
  startTestLab,
} from '../support/browser.js';
import type { TestLab } from '../support/browser.js';
import { chooseTheme, showNotebook, type Theme } from '../support/notebook-page.js';

/** Paper and ink that each of JupyterLab's themes must give our views. */
const THEMES: readonly (readonly [Theme, string, string])[] = [
  ['JupyterLab Light', 'rgb(252, 251, 247)', 'rgb(22, 34, 43)'],
  ['JupyterLab Dark', 'rgb(16, 23, 28)', 'rgb(236, 232, 222)'],
  ['JupyterLab Dark High Contrast', 'rgb(0, 0, 0)', 'rgb(255, 255, 255)'],
  ['Red night', 'rgb(0, 0, 0)', 'rgb(255, 106, 92)'],
];
const VIEWS = {
  working: '.ch-working >> nth=0',
  reduction: '.ch-working >> nth=1',
  chart: '.ch-chart',
  residuals: '.ch-residuals',
  uncertainty: '.ch-uncertainty',
  passage: '.ch-passage',
  log: '.ch-log',
  edit: '.ch-edit',
  instrument: '.ch-instrument',
  sky: '.ch-sky',
  bench: '.ch-bench',
  figure: '.ch-figure-card',
};

let browser: Browser;
let lab: TestLab;
let page: Page;
let errors: string[];
let foreign: string[];
beforeAll(async () => {
  [browser, lab] = await Promise.all([openBrowser('lab'), startTestLab()]);
  ({ page, errors, foreign } = await openPage(browser, { width: 1360, height: 1000 }));
  await showNotebook(
    page,
    lab,
    'views.ipynb',
    notebookWithOutputs(Object.values(await allViews())),
  );
  await page.locator('.ch-figure-card .main-svg').first().waitFor();
});
afterAll(async () => {
  await browser?.close();
  await lab?.stop();
});

for (const [theme, paper, ink] of THEMES)
  test(`every view stands in the colours of ${theme}`, async () => {
    await chooseTheme(page, theme);
    for (const [name, selector] of Object.entries(VIEWS)) {
      const view = page.locator(selector);
      const [background, color] = await view.evaluate((e) => {
        const { backgroundColor, color } = getComputedStyle(e);
        return [backgroundColor, color];
      });
      expect([name, background, color]).toEqual([name, paper, ink]);
      await view.scrollIntoViewIfNeeded();
      await shoot(view, `${name}-${theme.toLowerCase().replaceAll(' ', '-')}`);
    }
  });

test('plotly figures follow the theme', async () => {
  for (const [theme, paper] of THEMES) {
    await chooseTheme(page, theme);
    const fill = () =>
      page
        .locator('.ch-figure-card .main-svg')
        .first()
        .evaluate((svg) => getComputedStyle(svg).backgroundColor);
    await expect.poll(fill).toBe(paper);
  }
});

test('nothing was asked of another host and nothing broke', () => {
  expect(foreign).toEqual([]);
  expect(errors).toEqual([]);
});
