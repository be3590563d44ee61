import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { observedAltitude, position, reduce, sight, type SightFields } from '../../src/index.js';
import { openBrowser, openPage, shoot, startTestLab, type TestLab } from '../support/browser.js';
import { openNotebook, runAll } from '../support/notebook-page.js';

let browser: Browser;
let lab: TestLab;
let page: Page;
let errors: string[];
let foreign: string[];

/** The sight of the notebook, as its first code cell takes it down. */
const FIELDS: SightFields = {
  body: 'Sun',
  limb: 'lower',
  reading: '39°13.7′',
  time: '2027-05-11 09:42:17 UTC',
  eyeHeight: '2.6 m',
  indexError: '1.4′ off the arc',
  observer: 'A',
  dr: position('19°31′ S', '001°12′ W'),
};

beforeAll(async () => {
  [browser, lab] = await Promise.all([openBrowser('lab'), startTestLab(['notebooks', 'data'])]);
  ({ page, errors, foreign } = await openPage(browser, { width: 1280, height: 1000 }));
  await openNotebook(page, lab, 'notebooks/02-one-sight.ipynb');
  await runAll(page);
});
afterAll(async () => {
  await browser?.close();
  await lab?.stop();
});

const working = () => page.getByRole('region', { name: /^Observed altitude: Sun/ }).first();
const running = (rule: string) => working().locator(`tr[data-rule="${rule}"] .ch-running`);

test('after running all cells the working of the first notebook shows the figures of the core', async () => {
  const expected = observedAltitude(sight(FIELDS));
  await working().scrollIntoViewIfNeeded();
  for (const step of expected.steps) {
    expect(await running(step.rule).innerText(), step.rule).toBe(String(step.result));
    if (step.correction)
      expect(
        await working().locator(`tr[data-rule="${step.rule}"] .ch-amount`).innerText(),
      ).toMatch(new RegExp(`${Math.abs(step.correction.arcminutes).toFixed(1)}′$`));
  }
  await shoot(page, 'one-sight-working');
});

test('moving the height of eye moves every later step as the core does', async () => {
  await working().getByText('Try other figures').click();
  await working().getByLabel('Height of eye').last().fill('9');
  const expected = observedAltitude(sight({ ...FIELDS, eyeHeight: '9 m' }));
  for (const rule of ['dip', 'apparent', 'refraction', 'observed'])
    await expect.poll(() => running(rule).innerText()).toBe(String(expected.step(rule).result));
  await shoot(page, 'one-sight-moved');
  await working().getByRole('button', { name: 'Back to what was entered' }).click();
  const entered = observedAltitude(sight(FIELDS));
  await expect.poll(() => running('observed').innerText()).toBe(String(entered.value));
});

test('leaving out the dip shows the size of the slip', async () => {
  await working().getByRole('button', { name: 'Dip of the sea horizon' }).click();
  await working().locator('.ch-detail:not([hidden]) input[type="checkbox"]').check();
  const { correction } = observedAltitude(sight(FIELDS)).step('dip');
  const size = Math.abs(correction?.arcminutes ?? NaN).toFixed(1);
  const slip = working().locator('.ch-slip');
  await expect.poll(() => slip.innerText()).toContain(`${size}′ too great`);
  expect(await slip.innerText()).toContain(`${size} nm too far toward the body`);
  await working().locator('.ch-detail:not([hidden]) input[type="checkbox"]').uncheck();
  await expect.poll(() => slip.isHidden()).toBe(true);
});

test('the reduction ends in the intercept that the core computes', async () => {
  const view = page.getByRole('region', { name: /^Position line: Sun/ }).first();
  const line = reduce(sight(FIELDS)).value;
  const nm = line.intercept.nauticalMiles;
  // Between a figure and its unit stands a blank at which no line is broken.
  const shown = await view.locator('tr[data-rule="intercept"] .ch-running').innerText();
  expect(shown.replaceAll('\u00a0', ' ')).toBe(
    `${Math.abs(nm).toFixed(1)} nm ${nm < 0 ? 'away' : 'toward'}`,
  );
});

test('the guide opens from the Help menu, from the same server', async () => {
  await page.getByRole('menuitem', { name: 'Help' }).click();
  const opened = page.context().waitForEvent('page');
  await page.getByRole('menuitem', { name: 'Guide to Cocked Hat' }).click();
  const guide = await opened;
  await guide.getByRole('heading', { level: 1 }).waitFor();
  expect(new URL(guide.url()).host).toBe(new URL(page.url()).host);
  await guide.getByRole('link', { name: 'The sight log' }).first().click();
  expect(await guide.getByRole('heading', { level: 1 }).innerText()).toBe('The sight log');
  await guide.close();
});

test('the chart of the notebook shows a line, and nothing was asked of another host', async () => {
  const view = page.locator('.ch-chart').first();
  await view.scrollIntoViewIfNeeded();
  await view.locator('path[data-line]').first().waitFor();
  await shoot(page, 'one-sight-chart');
  expect(foreign).toEqual([]);
  expect(errors).toEqual([]);
});
