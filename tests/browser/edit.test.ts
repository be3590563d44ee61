import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import {
  notebookOfCells,
  openBrowser,
  openPage,
  shoot,
  startTestLab,
  type TestLab,
} from '../support/browser.js';
import { chooseTheme, command, openNotebook } from '../support/notebook-page.js';

const CELLS = [
  `import { editLog, readText, SightLog } from 'cocked-hat';
const beach = SightLog.fromCsv(await readText('data/demo/practice-afternoon.csv'));
editLog({ log: beach })`,
  `console.log(amended.numRows() + ' readings, not used: ' + amended.rejected().readings().map((r) => r.reason).join('; '));
console.log(amended.readings().slice(0, 3).map((r) => r.readingText + ' ' + r.observer).join(', '), process.pid);`,
];

let browser: Browser;
let lab: TestLab;
let page: Page;
let errors: string[];
beforeAll(async () => {
  [browser, lab] = await Promise.all([openBrowser('lab'), startTestLab(['data/demo'])]);
  fs.writeFileSync(path.join(lab.folder, 'edit.ipynb'), notebookOfCells(CELLS));
  ({ page, errors } = await openPage(browser, { width: 1360, height: 1000 }));
  page.on('dialog', (dialog) => void dialog.accept());
  await openNotebook(page, lab, 'edit.ipynb');
});
afterAll(async () => {
  await browser?.close();
  await lab?.stop();
});

const cell = (i: number) => page.locator('.jp-CodeCell').nth(i);
async function run(i: number): Promise<string> {
  await cell(i).locator('.jp-InputArea-prompt').click();
  await command(page, 'notebook:run-cell');
  await expect
    .poll(() => cell(i).locator('.jp-InputPrompt').textContent(), { timeout: 60_000 })
    .toMatch(/\[\d+\]/);
  const output = cell(i).locator('.jp-OutputArea-output').first();
  return (await output.count()) > 0 ? output.innerText() : '';
}
const entry = (row: string, name: string) =>
  page.locator(`.ch-edit-grid .ag-row[row-id="${row}"] .ag-cell[col-id="${name}"]`);
const field = () => page.locator('.ch-edit-entry input');
const code = async () =>
  (await cell(1).locator('.cm-content').innerText()).replaceAll('\u00a0', ' ');
async function type(row: string, name: string, text: string): Promise<void> {
  await entry(row, name).dblclick();
  await field().fill(text);
}

test('an entry is judged while it is typed; a wrong one is kept and named, a right one becomes a line of code', async () => {
  await run(0);
  await page.locator('.ch-edit-grid .ag-row').first().waitFor({ timeout: 60_000 });
  await command(page, 'docmanager:save');
  await type('1', 'reading', '43°71.6′');
  await expect.poll(() => page.locator('.ch-edit-why').innerText()).toMatch(/60/);
  await shoot(page, 'edit-typing');
  await field().press('Enter');
  await expect.poll(() => page.locator('.ch-edit-open').first().innerText()).toContain('43°71.6′');
  await expect.poll(code).toMatch(/not taken: '1 Sun [\d:]+', \{ reading: '43°71\.6′' \}/);
  await type('1', 'reading', '43°17.6′');
  await field().press('Enter');
  await expect
    .poll(code)
    .toMatch(/book\.correct\('1 Sun [\d:]+', \{ reading: \{ was: '.*', is: '43°17\.6′' \} \}\);/);
  expect(await code()).toContain('const amended = beach.amend(');
  // However far the entries are moved sideways, it stays plain which reading they belong to.
  const number = await entry('1', 'number').boundingBox();
  await page.locator('.ag-body-horizontal-scroll-viewport').evaluate((e) => e.scrollBy(400, 0));
  expect(await entry('1', 'number').boundingBox()).toEqual(number);
});

test('a block of a spreadsheet is pasted, undone and done again by the keys', async () => {
  await entry('2', 'reading').click();
  await page.evaluate(() => navigator.clipboard.writeText('43°40.0′\tB\n43°41.0′\tB\n'));
  await page.keyboard.press('Control+V');
  await expect.poll(() => entry('3', 'observer').innerText()).toBe('B');
  await expect.poll(code).toMatch(/correct\('3 Sun/);
  await entry('2', 'reading').click();
  await page.keyboard.press('Control+Z');
  await expect.poll(code).not.toMatch(/correct\('3 Sun/);
  await page.keyboard.press('Control+Y');
  await expect.poll(code).toMatch(/correct\('3 Sun/);
});

test('a reading is rejected with its reason; the keys of the notebook do nothing in the grid', async () => {
  await entry('4', 'body').click();
  await page.getByLabel('Reason for not using the readings').fill('horizon hazy');
  await page.getByRole('button', { name: 'Reject' }).click();
  await expect.poll(code).toMatch(/book\.reject\('4 Sun [\d:]+', 'horizon hazy'\);/);
  await entry('4', 'number').click();
  await page.keyboard.press('d');
  await page.keyboard.press('d');
  expect(await page.locator('.jp-CodeCell').count()).toBe(3);
  for (const theme of ['JupyterLab Dark', 'Red night', 'JupyterLab Light'] as const) {
    await chooseTheme(page, theme);
    await shoot(page.locator('.ch-edit'), `edit-${theme.replaceAll(' ', '-').toLowerCase()}`);
  }
});

const OUTCOME = /43°17\.6′ A?.*43°40\.0′ B, 43°41\.0′ B/;
test('the cell makes the amended log; a killed kernel and a reload without saving lose nothing', async () => {
  await run(1);
  const said = await run(2);
  expect(said).toContain('not used: horizon hazy');
  expect(said).toMatch(OUTCOME);
  // The kernel dies while an entry is being typed; JupyterLab says so in a dialogue that takes the focus away.
  await type('5', 'reading', '4x');
  process.kill(Number(/(\d+)\s*$/.exec(said.trim())?.[1]), 'SIGKILL');
  await page.locator('.jp-Dialog button').first().click({ timeout: 60_000 });
  if (await field().count()) await field().press('Enter');
  await expect.poll(code).toMatch(/not taken: '5 Sun/);
  const before = await page.locator('.ch-edit-code').textContent();
  await page.reload();
  await page.locator('.ch-edit-grid .ag-row').first().waitFor({ timeout: 60_000 });
  await expect.poll(() => page.locator('.ch-edit-code').textContent()).toBe(before);
  await expect.poll(() => page.locator('.jp-CodeCell').count()).toBe(3);
  expect(await entry('5', 'reading').innerText()).toBe('4x');
  await page
    .locator('#jp-main-statusbar', { hasText: /Cocked Hat \| Idle/ })
    .waitFor({ timeout: 60_000 });
  for (const i of [0, 1]) await run(i);
  await expect.poll(() => page.locator('.ch-edit-code').textContent()).toBe(before);
  expect(await run(2)).toMatch(OUTCOME);
  expect(errors).toEqual([]);
});
