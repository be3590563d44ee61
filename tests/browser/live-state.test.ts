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
  `import { practiceBench, sextantView, skyView } from 'cocked-hat';
const sextant = sextantView('34°17.6′');
sextant`,
  `const bench = practiceBench({
  body: 'Sun', time: '2027-05-11 14:30:00 UTC', position: position('15°55.2′ S', '005°43.1′ W'), eyeHeight: '2.6 m',
});
bench`,
  `const sky = skyView({ dr: position('15°30′ S', '005°10′ W'), time: '2027-05-14 18:40:00 UTC' });
sky`,
  `const read = await sextant.state(), taken = await bench.state(), above = await sky.state();
console.log((read.readingDeg as number * 60).toFixed(1) + ', ' + (taken.marks as object[]).length + ' mark, ' + above.time);`,
];

let browser: Browser;
let lab: TestLab;
let page: Page;
beforeAll(async () => {
  [browser, lab] = await Promise.all([openBrowser('lab'), startTestLab()]);
  fs.writeFileSync(path.join(lab.folder, 'live.ipynb'), notebookOfCells(CELLS));
  ({ page } = await openPage(browser));
  await openNotebook(page, lab, 'live.ipynb');
});
afterAll(async () => {
  await browser?.close();
  await lab?.stop();
});

const cell = (i: number) => page.locator('.jp-CodeCell').nth(i);

async function run(i: number): Promise<void> {
  await cell(i).locator('.jp-InputArea-prompt').click();
  await command(page, 'notebook:run-cell');
  await expect
    .poll(() => cell(i).locator('.jp-InputPrompt').textContent(), { timeout: 60_000 })
    .toMatch(/\[\d+\]/);
}
const output = (i: number) => cell(i).locator('.jp-OutputArea-output').first().innerText();
async function rerun(i: number): Promise<string> {
  await run(i);
  return (await output(i)).trim();
}

test('code reads what the reader moved', async () => {
  await run(0);
  const view = cell(0).locator('.ch-working');
  await view.getByText('Try other figures').click();
  await view.getByLabel('Height of eye').last().fill('9');
  const shown = await view.locator('tr[data-rule="observed"] .ch-running').innerText();
  await expect.poll(() => rerun(1)).toBe(`eye 9, ${shown}`);
  // Printed sentences break between words in notebooks of this kernel; JupyterLab's own rule is break-all.
  const printed = cell(1).locator('.jp-OutputArea-output pre').first();
  await expect.poll(() => printed.evaluate((e) => getComputedStyle(e).wordBreak)).toBe('normal');
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
  // The chart computes, and tells of it, once the figure has been let alone.
  await expect.poll(() => rerun(4)).toBe('sigma 2, latDeg lonDeg');
});

test('sextant, bench and sky are worked by key, pointer and finger, and code reads what came of it', async () => {
  for (const i of [5, 6, 7]) await run(i);
  const drum = cell(5).getByRole('slider', { name: 'Reading of the sextant' });
  const reading = async () => Math.round(Number(await drum.getAttribute('aria-valuenow')) * 600);
  await drum.press('ArrowUp');
  expect(await reading()).toBe(34 * 600 + 177);
  // Beside the frame, which moves the arm, the drum follows: down the page is more.
  const box = async () => (await drum.boundingBox())!;
  const beside = async (dy: number) => {
    const { x, y, width, height } = await box();
    return [x + width - 20, y + height - 60 + dy] as const;
  };
  await drum.scrollIntoViewIfNeeded();
  await page.mouse.move(...(await beside(0)));
  await page.mouse.down();
  await page.mouse.move(...(await beside(30)), { steps: 3 });
  await page.mouse.up();
  const dragged = await reading();
  expect(dragged).toBeGreaterThan(34 * 600 + 177);
  expect(dragged).toBeLessThan(35 * 600);
  const client = await page.context().newCDPSession(page);
  for (const [type, dy] of [
    ['touchStart', 0],
    ['touchMove', -15],
    ['touchMove', -30],
    ['touchEnd', 0],
  ] as const) {
    const [x, y] = await beside(dy);
    const touchPoints = type === 'touchEnd' ? [] : [{ x, y }];
    await client.send('Input.dispatchTouchEvent', { type, touchPoints });
  }
  await expect.poll(reading).toBe(34 * 600 + 177);
  await cell(6).getByRole('button', { name: 'Mark' }).click();
  const strip = cell(7).getByRole('slider', { name: 'Time' });
  await strip.press('ArrowLeft');
  await expect.poll(() => rerun(8)).toBe('2057.7, 1 mark, 2027-05-14 18:39:00 UTC');
  for (const theme of ['JupyterLab Dark', 'JupyterLab Light'] as const) {
    if (!process.env['SHOTS']) break;
    await chooseTheme(page, theme);
    for (const [i, name] of [
      [5, 'sextant'],
      [6, 'bench'],
      [7, 'sky'],
    ] as const)
      await shoot(cell(i).locator('.jp-OutputArea'), `lab-${name}-${theme.split(' ')[1]}`);
  }
});
