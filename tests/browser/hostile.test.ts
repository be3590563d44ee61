import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser } from 'playwright-core';
import { chartBundle } from '../../src/views/chart/chart-view.js';
import { MIME } from '../../src/views/mime.js';
import { residualsBundle } from '../../src/views/residuals/residual-view.js';
import { uncertaintyBundle } from '../../src/views/uncertainty/uncertainty-view.js';
import { workingBundle } from '../../src/views/working/working-view.js';
import { openBrowser, openPage } from '../support/browser.js';
import { galleryPage, type Exhibit } from '../support/gallery.js';
import { allViews } from '../support/all-views.js';
import { sampleFix } from '../support/sample-fix.js';
import { sampleWorking } from '../support/sample-working.js';

/** Texts that run when a page takes them for markup, an address or a formula. */
const ATTACKS = [
  '<img src=x onerror="window.broken=1">',
  '<script>window.broken=1</script>',
  '"><svg onload="window.broken=1">',
  'javascript:window.broken=1',
  '<a href="javascript:window.broken=1">x</a>',
  '\\href{javascript:window.broken=1}{x}\\htmlData{a=b}{c}',
  '</script><script>window.broken=1</script>',
];

let browser: Browser;
let folder: string;
beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-hostile-'));
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  fs.rmSync(folder, { recursive: true, force: true });
});

const bundles = () =>
  [
    [MIME.working, workingBundle(sampleWorking())[MIME.working]],
    [MIME.chart, chartBundle(sampleFix())[MIME.chart]],
    [MIME.residuals, residualsBundle(sampleFix())[MIME.residuals]],
    [MIME.uncertainty, uncertaintyBundle(sampleFix())[MIME.uncertainty]],
    [MIME.edit, allViews()['edit']?.[MIME.edit]],
    [MIME.plotly, chartBundle(sampleFix())[MIME.plotly]],
  ] as const;

/** Every text of the data replaced by an attack, where the data stay what they are otherwise. */
function poisoned(value: unknown, attack: string, keep: ReadonlySet<string>): unknown {
  if (typeof value === 'string') return attack;
  if (Array.isArray(value)) return value.map((v) => poisoned(v, attack, keep));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([k, v]) => [k, keep.has(k) ? v : poisoned(v, attack, keep)]),
  );
}
/** What must stay for the data to be read at all: words from fixed lists, times, bytes. */
const KEEP = new Set([
  'kind',
  'origin',
  'instant',
  'pieces',
  'method',
  'type',
  'mode',
  'x',
  'y',
  'log',
  'as',
  'entries',
  'key',
]);

async function visit(exhibits: readonly Exhibit[], name: string) {
  const url = await galleryPage(folder, exhibits, { name });
  const { page, errors, foreign } = await openPage(browser, { width: 900, height: 900 });
  await page.goto(url);
  await page.evaluate('window.cockedHatViews');
  for (const step of await page.locator('.ch-step').all()) await step.click();
  for (const link of await page.locator('.ch-points .ch-link').all()) await link.click();
  await page.waitForTimeout(300);
  const broken = await page.evaluate('window.broken');
  const acting = await page
    .locator(
      '.ch :is(script, iframe, object, embed, a[href^="javascript"]), .ch [onerror], .ch [onload]',
    )
    .count();
  const views = await page
    .locator('.ch-working, .ch-chart, .ch-residuals, .ch-uncertainty')
    .count();
  const text = await page.locator('body').innerText();
  await page.context().close();
  return { broken, acting, errors, foreign, text, views };
}

test('texts that try to run are shown as text in every view', async () => {
  for (const [i, attack] of ATTACKS.entries()) {
    const exhibits = bundles().map(([mime, data]) => ({
      mime,
      data: poisoned(JSON.parse(JSON.stringify(data)), attack, KEEP),
    }));
    const { broken, acting, errors, foreign, text, views } = await visit(exhibits, `attack-${i}`);
    expect(views, 'all four views are shown, not refused').toBeGreaterThanOrEqual(4);
    expect(text).toContain(attack);
    expect({ broken, acting, errors, foreign }, attack).toEqual({
      broken: undefined,
      acting: 0,
      errors: [],
      foreign: [],
    });
  }
}, 180_000);

test('malformed and huge data end in a message that names what is wrong, never in a broken page', async () => {
  const junk: unknown[] = [
    null,
    42,
    'text',
    [],
    { format: 1 },
    { format: 99, title: 'x' },
    { format: 1, title: 'x'.repeat(50_000), rows: [] },
    { format: 1, title: 'x', rows: Array.from({ length: 5000 }, () => ({})) },
    { __proto__: { format: 1 }, observations: 'no' },
  ];
  const mimes = [
    MIME.working,
    MIME.chart,
    MIME.residuals,
    MIME.uncertainty,
    MIME.passage,
    MIME.log,
    MIME.edit,
  ];
  const exhibits = mimes.flatMap((mime) => junk.map((data) => ({ mime, data })));
  const { broken, errors, text } = await visit(exhibits, 'junk');
  expect(broken).toBeUndefined();
  expect(errors).toEqual([]);
  expect(text.match(/cannot be read/g)?.length).toBe(exhibits.length);
}, 60_000);

test('numbers that are no numbers, far out of range or endless are refused', async () => {
  const chart = JSON.parse(JSON.stringify(chartBundle(sampleFix())[MIME.chart]));
  const spoiled = [1e400, -1e300, 'NaN'].map((value) => {
    const copy = structuredClone(chart);
    copy.observations[0].observed = { '°': value };
    return { mime: MIME.chart as string, data: copy };
  });
  const { broken, errors, text } = await visit(spoiled, 'numbers');
  expect(broken).toBeUndefined();
  expect(errors).toEqual([]);
  expect(text).toMatch(/at most 90°|cannot be read|finite/);
}, 60_000);
