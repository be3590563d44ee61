import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser } from 'playwright-core';
import { workingBundle } from '../../src/views/working/working-view.js';
import {
  notebookWithOutputs,
  openBrowser,
  openPage,
  shoot,
  startTestLab,
  type TestLab,
} from '../support/browser.js';
import { chooseTheme, showNotebook } from '../support/notebook-page.js';
import { sampleWorking } from '../support/sample-working.js';

let browser: Browser;
let lab: TestLab;
beforeAll(async () => {
  [browser, lab] = await Promise.all([openBrowser('lab'), startTestLab()]);
});
afterAll(async () => {
  await browser?.close();
  await lab?.stop();
});

const figure = {
  data: [
    { type: 'scatter', x: [1, 2, 3], y: [0.4, -0.3, 0.1], name: 'A' },
    { type: 'scatter', x: [1, 2, 3], y: [0.1, -0.5, 0.6], name: 'B' },
  ],
  layout: {
    title: { text: 'Residuals' },
    xaxis: { title: { text: 'Sight' } },
    yaxis: { title: { text: 'Residual, ′' } },
  },
};

test('a saved working and a saved plotly figure show in JupyterLab without a kernel or a network', async () => {
  const { page, errors, foreign } = await openPage(browser);
  const text = notebookWithOutputs([
    workingBundle(sampleWorking()),
    { 'application/vnd.plotly.v1+json': figure, 'text/plain': 'figure' },
  ]);
  page.setDefaultTimeout(60_000);
  await showNotebook(page, lab, 'saved.ipynb', text);
  const working = page.locator('.ch-working');
  await working.waitFor();
  expect(await working.locator('tr[data-rule="dip"] .ch-amount').innerText()).toBe('−2.8′');
  await working.getByRole('button', { name: 'Dip of the horizon' }).click();
  await working.locator('.ch-detail:not([hidden]) .katex').first().waitFor();
  await page.locator('.js-plotly-plot .main-svg').first().waitFor();
  for (const theme of [
    'JupyterLab Light',
    'JupyterLab Dark',
    'JupyterLab Dark High Contrast',
    'Red night',
  ] as const) {
    await chooseTheme(page, theme);
    await shoot(page, `first-${theme.replaceAll(' ', '-').toLowerCase()}`);
  }
  expect(errors).toEqual([]);
  expect(foreign).toEqual([]);
});
