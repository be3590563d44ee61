import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { quantities, starRound } from '../../src/index.js';
import { publish } from '../../src/publish/index.js';
import { openBrowser, ROOT, shoot } from '../support/browser.js';

const STUDENTS = ['Ana Lima', 'Ben Okafor'];
const NOTEBOOK = path.join(ROOT, 'notebooks', 'exercises', '4-star-round.ipynb');
/** CSS: 96 pixels to 25.4 mm. */
const PX_PER_MM = 96 / 25.4;

let home: string;
let browser: Browser;
beforeAll(async () => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'paper-'));
  for (const paperSize of ['A4', 'Letter'] as const)
    await publish([NOTEBOOK], {
      out: path.join(home, paperSize),
      forms: ['paper'],
      students: STUDENTS,
      paperSize,
    });
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  fs.rmSync(home, { recursive: true, force: true });
});

const fileOf = (size: string, kind: string): string => {
  const folder = path.join(home, size, kind);
  return path.join(folder, fs.readdirSync(folder).find((f) => f.endsWith('-paper.html')) ?? '');
};
async function open(file: string) {
  const page = await browser.newPage();
  await page.emulateMedia({ media: 'print' });
  await page.goto(pathToFileURL(file).href);
  return page;
}

describe('exercises on paper', () => {
  it.each([
    // ISO 216 A4 is 210 × 297 mm, ANSI Letter 8.5 × 11 in; a PDF counts points of 1/72 in.
    ['A4', 595.28, 841.89],
    ['Letter', 612, 792],
  ])('print on %s', async (size, width, height) => {
    const page = await open(fileOf(size, 'student'));
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf);
    // Chromium rounds pages to whole pixels of 0.75 points.
    expect(Math.abs(Number(box?.[1]) - width)).toBeLessThan(1);
    expect(Math.abs(Number(box?.[2]) - height)).toBeLessThan(1);
    await page.close();
  });
  it('have a plotting sheet to scale: a check line of 100 mm, a mile of 3 mm, longitude opened by the latitude', async () => {
    const page = await open(fileOf('A4', 'student'));
    const sheet = await page.evaluate(() => {
      const svg = document.querySelector('svg.sheet') as SVGSVGElement;
      const spans = (kind: string) =>
        [...svg.querySelectorAll(`line.${kind}`)].map((line) => {
          const { x, y, width, height } = line.getBoundingClientRect();
          return { x, y, width, height };
        });
      return { grid: spans('grid'), marks: spans('mark') };
    });
    const longest = Math.max(...sheet.marks.map((m) => m.width));
    expect(Math.abs(longest / PX_PER_MM - 100)).toBeLessThan(0.2);
    const lats = sheet.grid
      .filter((g) => g.height < 1)
      .map((g) => g.y)
      .sort((a, b) => a - b);
    expect(Math.abs((lats[1]! - lats[0]!) / PX_PER_MM - 30)).toBeLessThan(0.2);
    const lons = sheet.grid
      .filter((g) => g.width < 1)
      .map((g) => g.x)
      .sort((a, b) => a - b);
    const { dr } = starRound({ student: STUDENTS[0] as string }).given;
    const opened = Math.cos((Math.round(dr.latDeg * 6) / 6) * (Math.PI / 180));
    expect(Math.abs((lons[1]! - lons[0]!) / PX_PER_MM - 30 * opened)).toBeLessThan(0.2);
    await page.setViewportSize({ width: 760, height: 1050 });
    await shoot(page, 'published-paper');
    await page.close();
  });
  it('hold each student’s numbers, a row for every line, and no answer but in the teacher’s', () => {
    const student = fs.readFileSync(fileOf('A4', 'student'), 'utf8');
    const teacher = fs.readFileSync(fileOf('A4', 'teacher'), 'utf8');
    for (const name of STUDENTS) {
      const q = starRound({ student: name, method: 'tenths' });
      expect(student).toContain(`Numbers: <b>${q.code}</b>`);
      for (const [, given] of q.printed) expect(student).toContain(given);
      for (const [id, value] of q.expected()) {
        const { quantity } = q.line(id);
        const text = quantities[quantity].print(value);
        if (!['hourAngle', 'altitude', 'declination', 'latitude', 'longitude'].includes(quantity))
          continue;
        expect(teacher).toContain(text);
        expect(student).not.toContain(text);
      }
    }
    expect(student.match(/<table class="form">/g)?.length).toBe(2);
    expect(student).not.toContain('class="answers"');
    expect(student).not.toMatch(/<script|src=|href="http/);
  });
});
