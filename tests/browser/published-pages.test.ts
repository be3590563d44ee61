import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  Angle,
  indexCheck,
  Length,
  noonLatitude,
  passageToJudge,
  runningFix,
  starRound,
  sunAltitude,
  type FigureValue,
  type Question,
} from '../../src/index.js';
import { workedAnswer, type Slips } from '../exercises/worked-answer.js';
import { openBrowser, shoot } from '../support/browser.js';
import { publishedClass } from '../support/published-class.js';

const STUDENT = 'Ana Lima';

let home: string;
let published: string;
let browser: Browser;
beforeAll(async () => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'pages-'));
  [published, browser] = await Promise.all([publishedClass(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  fs.rmSync(home, { recursive: true, force: true });
});

/** Opens a page from its file and records all that it asks for and all that goes wrong. */
async function open(
  name: string,
  kind = 'student',
): Promise<{ page: Page; asked: string[]; errors: string[] }> {
  const folder = path.join(published, kind);
  const file = fs.readdirSync(folder).find((f) => f.startsWith(name)) ?? '';
  const context = await browser.newContext({
    viewport: { width: 1100, height: 900 },
    acceptDownloads: true,
  });
  const page = await context.newPage();
  const asked: string[] = [];
  const errors: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  page.on('pageerror', (error) => errors.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  await page.goto(pathToFileURL(path.join(folder, file)).href);
  await page.waitForSelector('html[data-ready=yes]');
  return { page, asked, errors };
}

/** Replaces a cell's text as a student does: by the keyboard. */
async function write(page: Page, cell: string, text: string): Promise<void> {
  const editor = page.locator(`#cell-${cell} .cm-content`);
  await editor.click();
  await page.keyboard.press('Control+A');
  await page.keyboard.insertText(text);
}

async function runAll(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Run all cells' }).click();
  await page.waitForFunction(
    () =>
      [...document.querySelectorAll('.count')].every((c) =>
        /^(?:has run|failed)$/.test(c.textContent ?? ''),
      ),
    null,
    { timeout: 60_000 },
  );
}

const answerText = (figures: Readonly<Record<string, string>>) =>
  `const answer = ${JSON.stringify(figures, null, 2)};`;
const negated = (right: FigureValue) =>
  right instanceof Length ? right.times(-1) : (right as Angle).negated();
const plus = (degrees: number) => (right: FigureValue) =>
  (right as Angle).plus(Angle.degrees(degrees));

interface Solved {
  readonly file: string;
  readonly question: Question<never>;
  readonly slips: Slips;
  /** Line to words that its feedback must hold. */
  readonly named: Readonly<Record<string, RegExp>>;
}
const asked = { student: STUDENT, method: 'tenths' } as const;
const plain = (q: unknown) => q as Question<never>;

const SET: readonly Solved[] = [
  {
    file: '1-index-check',
    question: plain(indexCheck(asked)),
    slips: { indexError: negated },
    named: { 'Index error': /not the side/ },
  },
  {
    file: '2-sun-altitude',
    question: plain(sunAltitude(asked)),
    slips: { dip: negated, semidiameter: negated, observed: plus(1) },
    named: {
      Dip: /plus sign/,
      'Semi-diameter': /other limb/,
      'Observed altitude': /one whole degree/,
    },
  },
  {
    file: '3-noon-latitude',
    question: plain(noonLatitude(asked)),
    slips: { zenithDistance: plus(40 / 60), latitude: negated },
    named: { 'Zenith distance': /sixty/, Latitude: /north and south are exchanged/ },
  },
  {
    file: '4-star-round',
    question: plain(starRound(asked)),
    slips: { gha1: plus(15.041), declination2: negated, intercept3: negated },
    named: {
      'Greenwich hour angle': /the hour before or the hour after/,
      declination: /exchanged/,
      intercept: /direction/,
    },
  },
  {
    file: '5-running-fix',
    question: plain(runningFix(asked)),
    slips: { zn1: plus(180), drLatitude: plus(1), intercept2: negated },
    named: {
      'First sight: azimuth': /opposite direction/,
      'DR latitude': /one whole degree/,
      'Second sight: intercept': /direction/,
    },
  },
  {
    file: '6-passage-to-judge',
    question: plain(passageToJudge(asked)),
    slips: { biasB: negated },
    named: { 'Bias of observer B': /direction/ },
  },
];

describe('the exercise set solved in a browser, from files', () => {
  it.each(SET)('$file: each chosen slip is named, and costs its line only', async (solved) => {
    const { page, asked: requests, errors } = await open(solved.file);
    await write(page, 'name', `const student = '${STUDENT}';`);
    await write(page, 'answer', answerText(workedAnswer(solved.question, solved.slips)));
    await runAll(page);
    const rows = page.locator('#cell-check .ch-feedback tbody tr');
    expect(await rows.count()).toBe(solved.question.lines.length);
    const wrong = page.locator('#cell-check tr.ch-wrong');
    const texts = await wrong.allInnerTexts();
    expect(texts.length).toBe(Object.keys(solved.slips).length);
    for (const [line, words] of Object.entries(solved.named))
      expect(texts.some((text) => text.includes(line) && words.test(text))).toBe(true);
    const first = solved.question.lines.find((l) => l.id in solved.slips);
    expect(await page.locator('#cell-check .ch-feedback p').first().innerText()).toContain(
      first?.title,
    );
    expect(errors).toEqual([]);
    expect(requests.filter((url) => !/^(?:file|blob):/.test(url))).toEqual([]);
    await shoot(page, `published-${solved.file}`);
    await page.context().close();
  });
});

describe('a published page', () => {
  it('keeps the reader’s copy, shows the original, and resets after a second press', async () => {
    const { page } = await open('2-sun-altitude');
    await write(page, 'name', `const student = 'Ben';`);
    await expect
      .poll(() => page.locator('.state').innerText())
      .toContain('Your copy: 1 cell changed, kept in this browser');
    await page.reload();
    await page.waitForSelector('html[data-ready=yes]');
    const name = page.locator('#cell-name .cm-content');
    expect(await name.innerText()).toContain('Ben');
    await page.getByRole('button', { name: 'Show the original' }).click();
    expect(await name.innerText()).toContain('Your name');
    await page.getByRole('button', { name: 'Show your copy' }).click();
    expect(await name.innerText()).toContain('Ben');
    await page.getByRole('button', { name: 'Reset to the original' }).click();
    expect(await name.innerText()).toContain('Ben');
    await page.getByRole('button', { name: 'Press again to lose your copy' }).click();
    expect(await name.innerText()).toContain('Your name');
    await page.context().close();
  });
  it('saves answers to a file that another browser and the teacher’s edition open', async () => {
    const { page } = await open('2-sun-altitude');
    await write(page, 'name', `const student = 'Cleo';`);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save to a file' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('2-sun-altitude-answers-Cleo.json');
    expect(await page.locator('.message').innerText()).toContain('the file to hand in');
    const saved = path.join(home, 'cleo.json');
    await download.saveAs(saved);
    await page.context().close();
    for (const kind of ['student', 'teacher']) {
      const other = await open('2-sun-altitude', kind);
      await other.page.locator('input.file').setInputFiles(saved);
      await expect
        .poll(() => other.page.locator('#cell-name .cm-content').innerText())
        .toContain('Cleo');
      expect(await other.page.locator('.message').innerText()).toBe('');
      await other.page.context().close();
    }
    const wrong = await open('3-noon-latitude');
    await wrong.page.locator('input.file').setInputFiles(saved);
    await expect
      .poll(() => wrong.page.locator('.message').innerText())
      .toContain('These answers belong to');
    await wrong.page.context().close();
  });
  it('draws new numbers for a new name, and an edition published anew offers what was written', async () => {
    const { page } = await open('2-sun-altitude');
    const question = page.locator('#cell-question .outputs');
    const before = await question.innerText();
    await write(page, 'name', `const student = 'Dora';`);
    await page.keyboard.press('Shift+Enter');
    await expect.poll(() => question.innerText()).not.toBe(before);
    // What the check said of the numbers before is gone.
    expect(await page.locator('#cell-check .outputs').innerText()).toBe('');
    const old = fileURLToPath(page.url());
    const text = fs.readFileSync(old, 'utf8');
    const anew = path.join(home, 'anew.html');
    fs.writeFileSync(
      anew,
      text.replaceAll(/-([0-9a-f]{8})\.html$/.exec(old)?.[1] ?? '', '0f0f0f0f'),
    );
    await page.goto(pathToFileURL(anew).href);
    await page.waitForSelector('html[data-ready=yes]');
    const name = page.locator('#cell-name .cm-content');
    expect(await name.innerText()).toContain('Your name');
    await page.getByRole('button', { name: 'Bring your answers here' }).click();
    expect(await name.innerText()).toContain('Dora');
    expect(await page.locator('.message').innerText()).toContain('this page is edition 0f0f0f0f');
    await page.context().close();
  });
  it('open twice keeps what is written in either, and lets the keyboard through unchanged', async () => {
    const { page: one } = await open('2-sun-altitude');
    const two = await one.context().newPage();
    await two.goto(one.url());
    await two.waitForSelector('html[data-ready=yes]');
    await write(one, 'name', `const student = 'Eve';`);
    const name = two.locator('#cell-name .cm-content');
    await expect.poll(() => name.innerText()).toContain('Eve');
    await write(two, 'answer', 'throw new Error("oops");');
    await one.reload();
    await one.waitForSelector('html[data-ready=yes]');
    expect(await one.locator('.state').innerText()).toContain('2 cells changed');
    // A cell above that fails is what has to be mended; the check is not asked.
    await one.locator('#cell-check .run').click();
    const check = one.locator('#cell-check .outputs');
    await expect.poll(() => check.innerText()).toContain('a cell above failed');
    await write(one, 'answer', 'for (let i = 0; i < 50_000; i++) console.log(`line ${i}`);');
    await one.locator('#cell-answer .run').click();
    const printed = one.locator('#cell-answer .outputs');
    await expect.poll(() => printed.innerText()).toContain('is left out');
    expect((await printed.innerText()).length).toBeLessThan(101_000);
    await two.bringToFront();
    await two.locator('#cell-name .run').focus();
    // Each cell is told from the others by its name.
    for (const next of ['your name', 'Run: cell 2']) {
      await two.keyboard.press('Tab');
      const focused = two.locator(':focus');
      expect((await focused.getAttribute('aria-label')) ?? (await focused.innerText())).toBe(next);
    }
    expect(await name.innerText()).toBe(`const student = 'Eve';`);
    await one.context().close();
  });
  it('does not let a given cell be changed', async () => {
    const { page } = await open('2-sun-altitude');
    const given = page.locator('#cell-question .cm-content');
    const before = await given.innerText();
    await given.click();
    await page.keyboard.type('x');
    expect(await given.innerText()).toBe(before);
    await page.context().close();
  });
  it('stops a cell that does not end, and runs the cells above again first', async () => {
    const { page } = await open('2-sun-altitude');
    await write(page, 'answer', 'for (;;);');
    await page.locator('#cell-answer .run').click();
    await expect.poll(() => page.locator('#cell-answer .count').innerText()).toBe('runs');
    await page.waitForTimeout(300);
    await page.getByRole('button', { name: 'Stop' }).click();
    await expect.poll(() => page.locator('#cell-answer .outputs').innerText()).toContain('Stopped');
    await write(page, 'answer', 'const answer = {};');
    await page.locator('#cell-check .run').click();
    await expect
      .poll(() => page.locator('#cell-check .outputs').innerText())
      .toContain('0 of 7 lines');
    await page.context().close();
  });
  it('runs what is above and new or changed when one cell is asked for', async () => {
    const { page, errors } = await open('2-sun-altitude');
    const check = page.locator('#cell-check .outputs');
    const count = (cell: string) => page.locator(`#cell-${cell} .count`).innerText();
    await page.locator('#cell-check .run').click();
    await expect.poll(() => count('check')).toBe('has run');
    expect(await check.innerText()).toContain('0 of 7 lines');
    await write(page, 'answer', "const answer = { dip: 'x' };");
    await page.locator('#cell-check .run').click();
    await expect.poll(() => check.innerText()).toMatch(/Dip\s+x/);
    expect(await count('name')).toBe('has run');
    expect(errors).toEqual([]);
    await page.context().close();
  });
  it('lets no cell reach out or run markup', async () => {
    const { page, asked: requests } = await open('2-sun-altitude');
    await write(
      page,
      'answer',
      `const tried = await fetch('https://x.invalid/').then(() => 'reached', (e) => 'refused ' + e.message);
       display.html('<img src="https://x.invalid/a.png" onerror="document.title=1"><svg onload="document.title=2"></svg><b>shown</b>');
       tried`,
    );
    for (const cell of ['name', 'answer']) await page.locator(`#cell-${cell} .run`).click();
    await expect
      .poll(() => page.locator('#cell-answer .outputs').innerText())
      .toMatch(/shown[\s\S]*refused/);
    expect(await page.title()).toBe('From the sextant to the observed altitude');
    expect(requests.filter((url) => /^(?:https?|wss?):/.test(url))).toEqual([]);
    await page.context().close();
  });
  it('shows its questions and text without any script', async () => {
    const folder = path.join(published, 'student');
    const file = fs.readdirSync(folder).find((f) => f.startsWith('2-')) ?? '';
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(pathToFileURL(path.join(folder, file)).href);
    expect(await page.locator('main').innerText()).toMatch(/Sextant reading\s+\d+°\d\d\.\d′/);
    await context.close();
  });
  it('fits a narrow screen', async () => {
    const { page } = await open('4-star-round');
    await page.setViewportSize({ width: 360, height: 700 });
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(360);
    // The tables of the question and of its check, too, without moving them sideways.
    const over = await page
      .locator('.outputs')
      .evaluateAll((found) => found.map((e) => e.scrollWidth - e.clientWidth));
    expect(Math.max(...over)).toBeLessThanOrEqual(0);
    await shoot(page, 'published-narrow');
    await page.context().close();
  });
});
