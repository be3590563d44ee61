/** Measures publishing: size and start of a page, time to publish thirty cells, answers marked in a minute. */
import { execFile } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import zlib from 'node:zlib';
import { chromium } from 'playwright-core';
import { sunAltitude, quantities } from 'cocked-hat';
import { markClass, publish } from '../../src/publish/index.js';
import { figure, give, say, words } from './report/figures.mjs';
import { startOf } from './site-start.js';
import { answersText } from '../../src/publish/client/answers-file.js';

const ROOT = process.cwd();
const EXERCISE = path.join(ROOT, 'notebooks', 'exercises', '2-sun-altitude.ipynb');
const home = fs.mkdtempSync(path.join(os.tmpdir(), 'bench-publish-'));
const figures: ReturnType<typeof figure>[] = [];
/** Notes a figure and prints it; `how` stands in place of a target. */
function row(given: Parameters<typeof figure>[0], digits: number, how = ''): void {
  const made = figure(given);
  figures.push(made);
  const { name, value, unit, target } = made;
  const aim =
    target === null
      ? how
      : 'most' in target
        ? `at most ${target.most}`
        : `at least ${target.least}`;
  say(`${name.padEnd(56)} ${(value ?? NaN).toFixed(digits).padStart(7)} ${unit.padEnd(4)} ${aim}`);
}
const packed = (file: string) => zlib.gzipSync(fs.readFileSync(file), { level: 9 }).length;
const below = (folder: string) =>
  fs
    .readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) => path.join(e.parentPath, e.name));
const seconds = (since: number) => (performance.now() - since) / 1000;

/** A notebook of thirty code cells: the working and the chart of a fix, and a check. */
function thirtyCells(): string {
  const { cells, ...rest } = JSON.parse(fs.readFileSync(EXERCISE, 'utf8')) as { cells: object[] };
  const code = (id: string, source: string) => ({
    id,
    cell_type: 'code',
    metadata: {},
    source,
    outputs: [],
    execution_count: null,
  });
  const sights = `import { chart, fix, observedAltitude, position, sight } from 'cocked-hat';
const dr = position('15°55′ S', '005°43′ W');
const sights = [['Sun', '41°18.6′', '10:42:17'], ['Sun', '55°02.1′', '13:01:10']].map(([body, reading, time]) =>
  sight({ body: 'Sun', limb: 'lower', reading, time: '2027-05-11 ' + time + ' UTC', eyeHeight: '2.6 m', indexError: '1.4′ off the arc', dr }));`;
  const more = Array.from({ length: 25 }, (_, i) =>
    code(`more-${i}`, i % 2 ? 'observedAltitude(sights[1])' : 'chart(fix(sights, { dr }))'),
  );
  const file = path.join(home, 'thirty.ipynb');
  fs.writeFileSync(
    file,
    JSON.stringify({ ...rest, cells: [...cells, code('sights', sights), ...more] }),
  );
  return file;
}

const openBrowser = () =>
  chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu'],
  });
const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

async function pages(): Promise<void> {
  const out = path.join(home, 'page');
  await publish([EXERCISE], { out, forms: ['page'] });
  const page = below(path.join(out, 'student')).find((f) => f.endsWith('.html')) as string;
  const weight = { value: packed(page) / 1000, unit: 'kB', target: { most: 400 } };
  row({ name: 'page with working, chart and check views, packed', ...weight }, 0);
  const browser = await openBrowser();
  const times: number[] = [];
  for (let i = 0; i < 5; i++) {
    const tab = await (await browser.newContext()).newPage();
    const since = performance.now();
    await tab.goto(pathToFileURL(page).href);
    await tab.waitForSelector('html[data-ready=yes]');
    times.push(seconds(since));
    await tab.context().close();
  }
  await browser.close();
  const start = { value: median(times), unit: 's', target: { most: 1 } };
  row({ name: 'page from file to ready for use, median of 5', ...start }, 2);
}

async function publishing(): Promise<void> {
  const since = performance.now();
  await publish([thirtyCells()], { out: path.join(home, 'thirty') });
  const time = { value: seconds(since), unit: 's', target: { most: 10 } };
  row({ name: 'publish 30 code cells, both editions, pages, notebooks', ...time }, 1);
}

async function sites(): Promise<void> {
  const out = path.join(home, 'site');
  const since = performance.now();
  await publish([EXERCISE], { out, forms: ['site'] });
  const site = path.join(out, 'student', 'site');
  const size = below(site).reduce((sum, file) => sum + packed(file), 0);
  const weight = { value: size / 1e6, unit: 'MB', target: { most: 7 } };
  row({ name: 'JupyterLite site, all files packed', ...weight }, 1);
  row({ name: 'publish the site, both editions', value: seconds(since), unit: 's' }, 1);
  const browser = await openBrowser();
  const starts = [];
  for (let i = 0; i < 3; i++) starts.push(await startOf(browser, site));
  await browser.close();
  const first = median(starts.map((start) => start.first));
  const cells = median(starts.map((start) => start.cells));
  const start = { value: first, unit: 's', target: { most: 4 } };
  row({ name: 'site, link to first result of a cell, median of 3', ...start }, 1);
  const ratio = {
    value: first / cells,
    unit: ': 1',
    peer: 'JupyterLite alone',
    ratio: first / cells,
  };
  row({ name: 'first result : cells on the screen', ...ratio }, 2, 'the same starts');
}

/** Seconds that one process of Node takes that does nothing, as many side by side as marking runs. */
async function emptyProcess(count: number): Promise<number> {
  const start = () => promisify(execFile)(process.execPath, ['-e', '0']);
  const since = performance.now();
  let left = count;
  const worker = async () => {
    while (left-- > 0) await start();
  };
  await Promise.all(Array.from({ length: Math.max(2, os.availableParallelism()) }, worker));
  return seconds(since) / count;
}

/** @param computed whether the answers compute something, and so have to be run each in a process of its own */
async function marking(students: number, computed: boolean): Promise<void> {
  const returned = path.join(home, `returned-${computed}`);
  fs.mkdirSync(returned);
  const facts = {
    notebook: '2-sun-altitude',
    title: '',
    kind: 'student',
    version: 'x',
    library: '',
    data: {},
    licence: '',
    cautions: [],
  } as const;
  for (let i = 0; i < students; i++) {
    const student = `Student ${i}`;
    const q = sunAltitude({ student, method: 'tenths' });
    const figures = Object.fromEntries(
      [...q.expected()].map(([id, value]) => [id, quantities[q.line(id).quantity].print(value)]),
    );
    const cells = new Map([
      ['name', `const student = '${student}';`],
      [
        'answer',
        `const answer = ${computed ? 'Object.assign({}, ' : '('}${JSON.stringify(figures)});`,
      ],
    ]);
    fs.writeFileSync(path.join(returned, `${i}.json`), answersText(facts, cells));
  }
  const since = performance.now();
  const { files } = await markClass(EXERCISE, returned, {
    out: path.join(home, `marks-${computed}`),
  });
  const taken = seconds(since);
  const full = files.filter(
    (f) => f.questions[0]?.marks === f.questions[0]?.outOf && f.questions.length > 0,
  ).length;
  if (full !== students) throw new Error(`${full} of ${students} right answers got full marks`);
  const how = computed ? 'computed: a process for each' : 'figures written down';
  const rate = { value: (60 * students) / taken, unit: '/min', target: { least: 200 } };
  row({ name: `answers marked, ${how}`, ...rate }, 0);
  if (!computed) return;
  const empty = await emptyProcess(students);
  const ratio = taken / students / empty;
  const beside = { value: ratio, unit: ': 1', peer: 'an empty process of Node', ratio };
  row({ name: 'one computed answer : an empty process', ...beside }, 1, 'the same minute');
}

const PARTS: Readonly<Record<string, () => Promise<void>>> = {
  pages,
  publishing,
  sites,
  written: () => marking(200, false),
  computed: () => marking(40, true),
};

try {
  const asked = words;
  for (const [name, measure] of Object.entries(PARTS))
    if (asked.length === 0 || asked.includes(name)) await measure();
  give(figures);
} finally {
  fs.rmSync(home, { recursive: true, force: true });
}
