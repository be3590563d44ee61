/**
 * The views: time to first paint of each view in Chromium, time per interaction and frames a second with twelve sights.
 * The editor has 10,000 readings, and beside it the same grid library 100 plain rows. Exits 1 when the chart is under 30 frames a second. What they weigh: sizes.mjs.
 */
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { buildPage } from '../../src/lab/build.mjs';
import { bundle } from './bundle.mjs';
import { buildPlainGrid, scrollAndEnter } from './editor.mjs';
import { figure, give, say } from './report/figures.mjs';

const LEAST_FRAMES = 30;
const MOVES = 120;
const round = (ms) => Number(ms.toFixed(1));

const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-bench-'));
const data = JSON.parse(
  execFileSync(process.execPath, [await bundle('views-data.ts')], {
    encoding: 'utf8',
    maxBuffer: 1e8,
  }),
);

function page(mime, json) {
  const file = path.join(folder, 'view.html');
  const text = JSON.stringify(json).replaceAll('<', '\\u003c');
  fs.writeFileSync(
    file,
    `<!doctype html><meta charset="utf-8"><body style="width:1000px"><script type="application/json" data-cocked-hat="${mime}">${text}</script><script>window.t0=performance.now()</script><script src="page.js"></script>`,
  );
  return `file://${file}`;
}

/** Milliseconds from the running of our script to the frame that shows the view. */
async function firstPaint(browser, [mime, json]) {
  const times = [];
  for (let i = 0; i < 5; i++) {
    const tab = await browser.newPage();
    await tab.goto(page(mime, json));
    times.push(
      await tab.evaluate(async () => {
        await window.cockedHatViews;
        await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
        return performance.now() - window.t0;
      }),
    );
    await tab.close();
  }
  return times.sort((a, b) => a - b)[2];
}

/** Moves a slider through its range, one step a frame; milliseconds a frame, sorted. */
async function frames(browser, [mime, json], label) {
  const tab = await browser.newPage({ viewport: { width: 1100, height: 900 } });
  await tab.goto(page(mime, json));
  await tab.evaluate('window.cockedHatViews');
  await tab.evaluate(() => document.querySelectorAll('details').forEach((d) => (d.open = true)));
  const times = await tab.evaluate(
    async ([name, moves]) => {
      const slider = document.querySelector(`input[type="range"][aria-label^="${name}"]`);
      const frame = () => new Promise((done) => requestAnimationFrame(done));
      const taken = [];
      await frame();
      let last = performance.now();
      for (let i = 0; i < moves; i++) {
        slider.value = String(
          Number(slider.min) + ((Number(slider.max) - Number(slider.min)) * (i % 40)) / 40,
        );
        slider.dispatchEvent(new Event('input'));
        await frame();
        const now = performance.now();
        taken.push(now - last);
        last = now;
      }
      return taken.sort((a, b) => a - b);
    },
    [label, MOVES],
  );
  await tab.close();
  return times;
}

try {
  await buildPage({ outfile: path.join(folder, 'page.js') });
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
  const figures = [];
  say(
    '\nFirst paint from the running of the script, ms, median of 5 (the script holds plotly); data, kB',
  );
  for (const [name, view] of Object.entries(data)) {
    const ms = await firstPaint(browser, view);
    const kb = JSON.stringify(view[1]).length / 1000;
    say(`  ${name.padEnd(12)}${ms.toFixed(0).padStart(6)}${kb.toFixed(1).padStart(8)}`);
    figures.push(figure({ name: `first paint, ${name}`, value: ms, unit: 'ms' }));
  }
  say(
    '\nA slider moved once a frame, ms a frame: median, 90th percentile; frames a second by the median',
  );
  let slow = false;
  for (const [name, label] of [
    ['working', 'Height of eye'],
    ['chart', 'Speed'],
    ['chart', 'σ of an altitude'],
    ['uncertainty', 'Observer'],
  ]) {
    const times = await frames(browser, data[name], label);
    const median = times[MOVES / 2];
    const about = { msMedian: round(median), ms90: round(times[Math.floor(MOVES * 0.9)]) };
    const target = name === 'chart' ? { least: LEAST_FRAMES } : null;
    const frame = { value: 1000 / median, unit: 'frames/s', target, about };
    figures.push(figure({ name: `slider moved: ${name}, ${label}`, ...frame }));
    say(
      `  ${`${name}, ${label}`.padEnd(30)}${median.toFixed(1).padStart(6)}${times[Math.floor(MOVES * 0.9)].toFixed(1).padStart(8)}${(1000 / median).toFixed(0).padStart(6)}`,
    );
    if (name === 'chart') slow ||= 1000 / median < LEAST_FRAMES;
  }
  await buildPlainGrid(path.join(folder, 'plain.js'));
  const plainFile = path.join(folder, 'plain.html');
  fs.writeFileSync(
    plainFile,
    '<!doctype html><meta charset="utf-8"><body style="width:1000px"><script src="plain.js"></script>',
  );
  const plain = await scrollAndEnter(browser, `file://${plainFile}`, 'c3');
  const editor = await scrollAndEnter(browser, page(...data.editor), 'body');
  say('\nA log of 10,000 readings in the editor; the same grid library with 100 plain rows; ratio');
  for (const [what, of] of [
    ['scrolling, ms a frame', 'scroll'],
    ['an entry, ms', 'entry'],
  ]) {
    const about = { plainMs: round(plain[of]), ratio: round(editor[of] / plain[of]) };
    figures.push(
      figure({
        name: `editor: ${what}`,
        value: editor[of],
        unit: 'ms',
        peer: 'ag-grid, 100 plain rows',
        ratio: editor[of] / plain[of],
        about,
      }),
    );
    say(
      `  ${what.padEnd(30)}${editor[of].toFixed(1).padStart(8)}${plain[of].toFixed(1).padStart(8)}${about.ratio.toFixed(1).padStart(6)}`,
    );
  }
  await browser.close();
  give(figures);
  if (slow) say(`Too slow: at least ${LEAST_FRAMES} frames a second.`);
  process.exitCode = slow ? 1 : 0;
} finally {
  fs.rmSync(folder, { recursive: true, force: true });
}
