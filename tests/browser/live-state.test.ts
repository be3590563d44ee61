import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import {
  notebookOfCells,
  openBrowser,
  openPage,
  startTestLab,
  type TestLab,
} from '../support/browser.js';
import { command, openNotebook } from '../support/notebook-page.js';

const CELLS = [
  `import { chart, fix, observedAltitude, position, sight, workingView } from 'cocked-hat';
const dr = position('19°31′ S', '001°12′ W');
const forenoon = sight({
  body: 'Sun', reading: '39°13.7′', time: '2027-05-11 09:42:17 UTC', eyeHeight: '2.6 m', indexError: 'none', dr,
});
const view = workingView(observedAltitude(forenoon));
view`,
  `const moved = await view.state();
console.log('eye ' + moved.eyeHeightM + ', ' + moved.value);`,
  `view.set({ eyeHeightM: 4 })`,
  `const map = chart(fix([forenoon], { dr, prior: { sigma: '4 nmi' } }));
map`,
  `const seen = await map.state();
console.log('sigma ' + seen.sigmaArcmin + ', ' + Object.keys(seen.fix as object).join(' '));`,
];

let browser: Browser;
let lab: TestLab;
let page: Page;
beforeAll(async () => {
  [browser, lab] = await Promise.all([openBrowser('lab'), startTestLab()]);
  fs.writeFileSync(path.join(lab.folder, 'live.ipynb'), notebookOfCells(CELLS));
  ({ page } = await openPage(browser));
  await openNotebook(page, lab, 'live.ipynb');
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await lab?.stop();
});

const cell = (i: number) => page.locator('.jp-CodeCell').nth(i);

async function run(i: number): Promise<void> {
  await cell(i).locator('.jp-InputArea-prompt').click();
  await command(page, 'notebook:run-cell');
  await expect
    .poll(() => cell(i).locator('.jp-InputPrompt').textContent(), { timeout: 30_000 })
    .toMatch(/\[\d+\]/);
}
const output = (i: number) => cell(i).locator('.jp-OutputArea-output').first().innerText();

test('code reads what the reader moved', async () => {
  await run(0);
  const view = cell(0).locator('.ch-working');
  await view.getByText('Try other figures').click();
  await view.getByLabel('Height of eye').last().fill('9');
  const shown = await view.locator('tr[data-rule="observed"] .ch-running').innerText();
  await run(1);
  expect((await output(1)).trim()).toBe(`eye 9, ${shown}`);
});

test('code moves what the reader sees', async () => {
  await run(2);
  const box = cell(0).locator('.ch-working').getByLabel('Height of eye').last();
  await expect.poll(() => box.inputValue()).toBe('4');
});

test('a chart tells the kernel its fix', async () => {
  await run(3);
  const view = cell(3).locator('.ch-chart');
  await view.getByLabel('σ of an altitude').last().fill('2');
  await page.waitForTimeout(400);
  await run(4);
  expect((await output(4)).trim()).toBe('sigma 2, latDeg lonDeg');
});
