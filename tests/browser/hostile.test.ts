import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser } from 'playwright-core';
import { MIME, type MimeBundle } from '../../src/views/mime.js';
import { workingBundle } from '../../src/views/working/working-view.js';
import { openBrowser } from '../support/browser.js';
import { openGallery, type Exhibit } from '../support/gallery.js';
import { allViews } from '../support/all-views.js';
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
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

/** The data of one of each view. */
const BUNDLES: Record<string, MimeBundle> = {
  ...(await allViews()),
  // A working without the sight it came from: its texts are shown as they stand.
  working: workingBundle(sampleWorking()),
};
const VIEWS = (Object.keys(MIME) as (keyof typeof MIME)[]).map((name) => {
  const mime: string = MIME[name];
  const bundle = BUNDLES[name === 'plotly' ? 'figure' : name];
  return { name, mime, data: JSON.parse(JSON.stringify(bundle?.[mime])) as unknown };
});

const OURS = VIEWS.filter(({ name }) => name !== 'plotly');

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
const KEEP = [
  ...['kind', 'origin', 'instant', 'pieces', 'method', 'type', 'mode', 'x', 'y'],
  ...['log', 'as', 'entries', 'key', 'open'],
];
/** In some views more is a word from a list. */
const ALSO_KEPT: Readonly<Partial<Record<keyof typeof MIME, readonly string[]>>> = {
  bench: ['body', 'limb', 'horizon'],
  log: ['align'],
};

/** What became of each exhibit on the page, in order, once everything in it that opens has been opened. */
async function visit(exhibits: readonly Exhibit[]) {
  const { page, errors, foreign, close } = await openGallery(browser, exhibits, { width: 900 });
  await page.evaluate(() => {
    for (const part of document.querySelectorAll<HTMLElement>('.ch-step, .ch-points .ch-link'))
      part.click();
    for (const part of document.querySelectorAll('details')) part.open = true;
  });
  // Formulas and plots come a little later, and an address that is asked for fails a little later.
  await page.waitForFunction(
    () =>
      document.querySelectorAll('.ch-residuals').length <=
      document.querySelectorAll('.ch-residuals .main-svg').length,
  );
  await page.waitForTimeout(500);
  const views = await page.locator('script[data-cocked-hat] + div').evaluateAll((hosts) =>
    hosts.map((host) => ({
      refused: host.querySelector(':scope > .ch[role="alert"]') !== null,
      acting: host.querySelectorAll(
        'script, iframe, object, embed, a[href^="javascript"], [onerror], [onload]',
      ).length,
      text: (host as HTMLElement).innerText,
    })),
  );
  const broken = await page.evaluate('window.broken');
  await close();
  return { broken, errors, foreign, views };
}

test('texts that try to run are shown as text in every view', async () => {
  const exhibits = ATTACKS.flatMap((attack) =>
    VIEWS.map(({ name, mime, data }) => {
      const keep = new Set([...KEEP, ...(ALSO_KEPT[name] ?? [])]);
      return { attack, name, mime, data: poisoned(data, attack, keep) };
    }),
  );
  const { broken, errors, foreign, views } = await visit(exhibits);
  expect({ broken, errors, foreign }).toEqual({ broken: undefined, errors: [], foreign: [] });
  const of = (i: number) => ({ name: exhibits[i]?.name, attack: exhibits[i]?.attack });
  expect(views.flatMap(({ acting }, i) => (acting > 0 ? [of(i)] : []))).toEqual([]);
  expect(
    views.flatMap(({ refused, text }, i) =>
      refused ? [{ ...of(i), text: text.slice(0, 200) }] : [],
    ),
  ).toEqual([]);
  for (const attack of ATTACKS)
    expect(
      exhibits.flatMap((e, i) =>
        e.attack === attack && views[i]?.text.includes(attack) ? [e.name] : [],
      ).length,
      attack,
    ).toBeGreaterThan(3);
});

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
  const exhibits = OURS.flatMap(({ mime }) => junk.map((data) => ({ mime, data })));
  const { broken, errors, views } = await visit(exhibits);
  expect({ broken, errors }).toEqual({ broken: undefined, errors: [] });
  expect(views.filter(({ text }) => text.includes('cannot be read')).length).toBe(exhibits.length);
});

test('numbers that are no numbers, far out of range or endless are refused', async () => {
  // JSON makes null of what is endless.
  const wrong = [null, -1e300, 'NaN'];
  const observed = wrong.map((value) => {
    const copy = structuredClone(VIEWS.find(({ name }) => name === 'chart')?.data) as {
      observations: { observed: unknown }[];
    };
    copy.observations[0]!.observed = { '°': value };
    return { name: 'chart observed', mime: MIME.chart as string, data: copy };
  });
  const figures = OURS.filter(({ name }) => ['instrument', 'bench', 'sky'].includes(name)).flatMap(
    ({ name, mime, data }) => {
      const fields = data as Record<string, unknown>;
      const numbers = Object.keys(fields).filter((key) => typeof fields[key] === 'number');
      return numbers.flatMap((key) =>
        wrong.map((value) => ({ name: `${name} ${key}`, mime, data: { ...fields, [key]: value } })),
      );
    },
  );
  const exhibits = [...observed, ...figures];
  expect(exhibits.length).toBeGreaterThan(60);
  const { broken, errors, views } = await visit(exhibits);
  expect({ broken, errors }).toEqual({ broken: undefined, errors: [] });
  const said = /at most 90°|cannot be read|finite/;
  expect(views.flatMap(({ text }, i) => (said.test(text) ? [] : [exhibits[i]?.name]))).toEqual([]);
});
