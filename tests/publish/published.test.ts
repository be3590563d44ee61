import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import zlib from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { textOf, type Notebook } from '../../src/kernel/runner/notebook.js';
import {
  editionName,
  findLeaks,
  makeEditions,
  publish,
  type Published,
} from '../../src/publish/index.js';
import { markdownHtml } from '../../src/publish/page/markdown.js';
import { leftBehind, namesUsed, remarksOn } from '../../src/publish/source/index.js';
import { oneFilePage, pageCells } from '../../src/publish/page/index.js';
import { pageParts } from '../../src/publish/page/page-parts.js';
import { smallData } from '../../src/publish/small-data.mjs';
import { ROOT } from '../support/root.js';

const EXERCISES = path.join(ROOT, 'notebooks', 'exercises');
const NOTEBOOKS = fs
  .readdirSync(EXERCISES)
  .filter((f) => f.endsWith('.ipynb'))
  .map((f) => path.join(EXERCISES, f));

let home: string;
let out: string;
let published: Published;
beforeAll(async () => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'published-'));
  out = path.join(home, 'class');
  published = await publish(NOTEBOOKS, { out });
});
afterAll(() => fs.rmSync(home, { recursive: true, force: true }));

const read = (name: string) => fs.readFileSync(path.join(out, name));
const student = () => published.files.filter((f) => f.startsWith('student/'));

describe('the exercises published', () => {
  it('are two editions of each in every form', () => {
    expect(published.files.filter((f) => f.endsWith('.html')).length).toBe(12);
    expect(published.files.filter((f) => f.endsWith('.ipynb')).length).toBe(12);
  });
  it('hold no answer in any file for students, in any form, though those for teachers do', async () => {
    const editions = await Promise.all(NOTEBOOKS.map((notebook) => makeEditions(notebook)));
    // Unrounded figures are left to the search before writing: by chance they stand in a star's coordinates.
    const sought = editions
      .flatMap(({ secrets }) => secrets)
      .filter((s) => s.kind === 'solution' || /[°′]/.test(s.text));
    const students = student().map((f) => ({ name: f, bytes: read(f) }));
    expect(findLeaks(students, sought)).toEqual([]);
    NOTEBOOKS.forEach((notebook, i) => {
      const name = path.basename(notebook, '.ipynb');
      const solution = (editions[i]?.secrets ?? []).filter((s) => s.kind === 'solution');
      expect(solution.length).toBeGreaterThan(4);
      const files = published.files
        .filter((f) => f.startsWith(`teacher/${name}-`))
        .map((f) => ({ name: f, bytes: read(f) }));
      // The search finds what is there: the teacher's notebook holds every line of the solution.
      const leaks = findLeaks(files, solution).map((l) => l.secret.text);
      for (const secret of solution) expect(leaks).toContain(secret.text);
    });
  });
  it.each(['time-scales.json', 'nav-stars.json'])(
    'carry %s to the last digit, less what only people read',
    async (name) => {
      const file = path.join(ROOT, 'data', name);
      const whole = JSON.parse(fs.readFileSync(file, 'utf8')) as Record<string, unknown>;
      const made = path.join(home, `${name}.mjs`);
      fs.writeFileSync(made, smallData(file));
      const { default: carried } = (await import(made)) as { default: Record<string, unknown> };
      expect(Object.keys(carried).length).toBeGreaterThan(2);
      for (const [key, value] of Object.entries(carried)) expect(value).toEqual(whole[key]);
      const left = Object.entries(whole).filter(([key]) => !(key in carried));
      for (const [, value] of left) expect(Array.isArray(value)).toBe(false);
    },
  );
  it('are under 400 kB packed', () => {
    for (const file of student().filter((f) => f.endsWith('.html')))
      expect(zlib.gzipSync(read(file), { level: 9 }).length).toBeLessThan(400_000);
  });
  it('carry the parts of the library that their cells name: plots and logs only where they are used', () => {
    const cell = (source: string) => ({ cell_type: 'code', source, metadata: {}, outputs: [] });
    const sizes = [
      'chart(dawn)',
      'residuals(dawn)',
      'skyView(dawn)',
      'SightLog',
      'practiceBench()',
    ].map((source) => {
      const notebook = { cells: [cell(source)], metadata: {} } as unknown as Notebook;
      return pageParts(notebook, [2027]).script.length;
    });
    const more = sizes.slice(1).map((size, i) => size - (sizes[i] ?? 0));
    // Plots, methods and planning, logs, the rest: each brings at least its own code.
    for (const [i, least] of [20_000, 50_000, 250_000, 50_000].entries())
      expect(more[i]).toBeGreaterThan(least);
  });
  it('state library, data, seed, licence and cautions', () => {
    for (const file of published.files.filter((f) => f.endsWith('.html'))) {
      const text = read(file).toString('utf8');
      for (const fact of [
        'Cocked Hat ',
        'SHA-256',
        'drawn from each student’s name',
        'MIT',
        'Never look at the Sun',
      ])
        expect(text).toContain(fact);
    }
  });
  it('allow one script by its checksum and nothing from outside', () => {
    const text = read(student().find((f) => f.endsWith('.html')) ?? '').toString('utf8');
    const policy = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(text)?.[1] ?? '';
    expect(policy).toMatch(/^default-src 'none'; script-src 'sha256-[^']+' 'unsafe-eval' blob:;/);
    expect(policy).not.toMatch(/https?:|\*|script-src[^;]*'unsafe-inline'/);
    expect(text).not.toMatch(/<(?:script|link|img|iframe)[^>]+(?:src|href)="(?!data:)/);
  });
  it('are the same, byte for byte, when published again', async () => {
    const again = path.join(home, 'again');
    const [first] = NOTEBOOKS;
    await publish([first as string], { out: again });
    for (const file of fs.readdirSync(path.join(again, 'student')))
      expect(
        fs.readFileSync(path.join(again, 'student', file)).equals(read(`student/${file}`)),
      ).toBe(true);
  });
  it('give the teacher’s edition full marks', () => {
    for (const file of published.files.filter((f) => /^teacher.*ipynb$/.test(f))) {
      const { cells } = JSON.parse(read(file).toString('utf8')) as Notebook;
      const data = cells.at(-1)?.outputs?.[0] as { data: Record<string, string[]> };
      expect(textOf(data.data['text/plain'] ?? '')).toMatch(/(?:All \d+|Both) lines are right/);
    }
  });
});

describe('a page', () => {
  it('sets a prime at the height of its figure', () => {
    const html = markdownHtml("$D = -1.76'\\sqrt{h}$, $h_a'$");
    expect(html).toMatch(/<mrow><mn>1\.76<\/mn><mo[^>]*>′<\/mo><\/mrow>/);
    expect(html).toMatch(/<mrow><msub><mi>h<\/mi><mi>a<\/mi><\/msub><mo[^>]*>′<\/mo><\/mrow>/);
  });
  it('folds a cell that its author collapsed, its text and output still there', () => {
    const [file] = student().filter((f) => f.endsWith('.html'));
    expect(read(file as string).toString()).not.toContain('<details class="folded">');
    const cell = { cell_type: 'code', source: '1 + 1', outputs: [] } as const;
    const cells = [
      { ...cell, id: 'a', metadata: { jupyter: { source_hidden: true } } },
      { ...cell, id: 'b', metadata: {} },
    ].map((c) => ({ ...c, execution_count: null, outputs: [] }));
    const made = pageCells({ cells, metadata: {}, nbformat: 4, nbformat_minor: 5 });
    const edition = {
      notebook: 'n',
      title: 't',
      kind: 'student',
      version: 'v',
      library: '1',
    } as const;
    const facts = { ...edition, data: {}, licence: '', cautions: [] };
    const bare = { script: '', css: '', ephemeris: { name: '', bytes: new Uint8Array() } };
    const html = oneFilePage({ edition: facts, cells: made }, bare);
    expect(
      html.match(/<details class="folded">.*?<pre class="source">1 \+ 1<\/pre>/gs)?.length,
    ).toBe(1);
    expect(html.match(/<pre class="source">/g)?.length).toBe(2);
  });
});

describe('the name of an edition', () => {
  it.each([
    ['Low Sun – été.ipynb', 'Low-Sun-été'],
    // As macOS writes an accent.
    ['e\u0301te\u0301 2.ipynb', 'été-2'],
    ['C:_lessons (old).ipynb', 'C-_lessons-old'],
    ['2-sun-altitude.ipynb', '2-sun-altitude'],
  ])('of %s is %s', (file, name) => expect(editionName(file)).toBe(name));
  it('needs a letter or a digit', () =>
    expect(() => editionName('…!.ipynb')).toThrow(/cannot go into/));
  it('is that of one notebook only', async () => {
    const twins = [path.join(home, 'a b.ipynb'), path.join(home, 'a-b.ipynb')];
    await expect(publish(twins, { out: path.join(home, 'twins') })).rejects.toThrow(
      /would both make pages named 'a-b'/,
    );
  });
});

describe('publish refuses', () => {
  const write = (
    name: string,
    ...cells: { source: string; metadata?: object; id?: string }[]
  ): string => {
    const file = path.join(home, name);
    const full = cells.map((cell, i) => ({
      id: cell.id ?? `c${i}`,
      cell_type: 'code',
      metadata: cell.metadata ?? {},
      source: cell.source,
      outputs: [],
      execution_count: null,
    }));
    fs.writeFileSync(
      file,
      JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells: full }),
    );
    return file;
  };
  const target = () => path.join(home, 'refused');
  const question = `import { sunAltitude, check, quantities } from 'cocked-hat';\nconst q = sunAltitude({ student: 'A' });`;

  it('a notebook whose question shows an answer, however it is hidden', async () => {
    const file = write('leak.ipynb', {
      source: `${question}\nconst ho = quantities.altitude.print(q.expected().get('observed'));\nbtoa(unescape(encodeURIComponent('answer ' + ho)))`,
    });
    await expect(publish([file], { out: target() })).rejects.toThrow(
      /figure of the answer \(base64/,
    );
    expect(fs.existsSync(target())).toBe(false);
  });
  it('a line of the solution that stands in a comment outside it', async () => {
    const file = write(
      'twice.ipynb',
      {
        source:
          'const x = 1;\n// BEGIN SOLUTION\nconst zenithDistance = 90 - 41.255;\n// END SOLUTION\nx',
      },
      { source: `'const zenithDistance =' + ' 90 - 41.255;'` },
    );
    await expect(publish([file], { out: target() })).rejects.toThrow(/line of the solution/);
  });
  it('a notebook whose teacher’s edition fails, naming the cell', async () => {
    const file = write('fails.ipynb', { source: '1' }, { source: 'nowhere' });
    await expect(publish([file], { out: target() })).rejects.toThrow(
      /code cell 2 \('c1'\) failed: ReferenceError/,
    );
  });
  it('two cells of one name, and solution marks that do not pair', async () => {
    await expect(
      publish([write('d.ipynb', { source: '1', id: 'a' }, { source: '2', id: 'a' })], {
        out: target(),
      }),
    ).rejects.toThrow(/two cells are named 'a'/);
    await expect(
      publish([write('m.ipynb', { source: '// BEGIN SOLUTION' })], { out: target() }),
    ).rejects.toThrow(/no END SOLUTION/);
  });
  it.each([
    ['page', 'astronomy-engine', /Code cell 2 imports 'astronomy-engine', which a one-file page/],
    ['site', 'node:path', /Code cell 2 imports 'node:path', which a site does not hold/],
  ] as const)('for a %s a notebook whose cells import %s', async (form, name, message) => {
    const file = write('imports.ipynb', { source: '1' }, { source: `await import('${name}');` });
    await expect(publish([file], { out: target(), forms: [form] })).rejects.toThrow(message);
    expect(fs.existsSync(target())).toBe(false);
  });
  it('a notebook that imports a file beside it', async () => {
    fs.writeFileSync(path.join(home, 'help.ts'), 'export const a = 1;');
    const file = write('local.ipynb', { source: `import { a } from './help';\na` });
    await expect(publish([file], { out: target(), forms: ['notebook'] })).rejects.toThrow(
      /code cell 1 \('c0'\) failed: Error: '\.\/help' is a file beside the notebook/,
    );
  });
  it('a notebook of another language, and a picture that is not there', async () => {
    const python = JSON.parse(
      fs.readFileSync(write('py.ipynb', { source: '1' }), 'utf8'),
    ) as Notebook;
    python.metadata = { kernelspec: { display_name: 'Python 3', language: 'python' } };
    const file = path.join(home, 'py.ipynb');
    fs.writeFileSync(file, JSON.stringify(python));
    await expect(publish([file], { out: target() })).rejects.toThrow(/notebook for Python 3/);
    const text = (name: string, source: string) => {
      const cells = [{ cell_type: 'markdown', id: 'm', metadata: {}, source }];
      const place = path.join(home, name);
      fs.writeFileSync(place, JSON.stringify({ ...python, metadata: {}, cells }));
      return place;
    };
    const missing = text('missing.ipynb', '# A\n\n![it](none/there.png)');
    await expect(publish([missing], { out: target() })).rejects.toThrow(
      /cell 1 shows the picture none\/there\.png, and there is no such file/,
    );
    await expect(publish([text('kind.ipynb', '![it](a.tiff)')], { out: target() })).rejects.toThrow(
      /no kind that pages show/,
    );
    // Beside the notebook it goes into the edition, in every form, and once only.
    const dot =
      'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';
    fs.writeFileSync(path.join(home, 'the dot.png'), Buffer.from(dot, 'base64'));
    const { files, remarks } = await publish([text('shown.ipynb', '![it](<the dot.png> "dot")')], {
      out: target(),
    });
    const made = (end: string) =>
      fs.readFileSync(
        path.join(target(), files.find((f) => f.startsWith('student') && f.endsWith(end)) ?? ''),
        'utf8',
      );
    expect(made('.html').split(dot).length).toBe(2);
    expect(made('.html')).toContain(
      `<img src="data:image/png;base64,${dot}" alt="it" title="dot">`,
    );
    expect(JSON.parse(made('.ipynb'))).toMatchObject({
      cells: [{ attachments: { 'the-dot.png': { 'image/png': dot } } }],
    });
    expect(remarks.join()).toMatch(/no heading/);
  });
  it('nothing for what an author may have forgotten, and says it', () => {
    const book = (...sources: (string | [string, string])[]): Notebook => ({
      nbformat: 4,
      nbformat_minor: 5,
      metadata: {},
      cells: sources.map((s, i) => ({
        cell_type: 'code',
        id: `c${i}`,
        metadata: typeof s === 'string' ? {} : { tags: [s[1]] },
        source: typeof s === 'string' ? s : s[0],
        outputs: [],
        execution_count: null,
      })),
    });
    const said = (...sources: (string | [string, string])[]) => {
      const found = book(...sources);
      found.cells.unshift({ cell_type: 'markdown', id: 'm', metadata: {}, source: '# T' });
      return remarksOn(found).join(' ');
    };
    const name = ["const student = 'Ana';", 'student'] as [string, string];
    const answer = ['const answer = {};', 'answer'] as [string, string];
    expect(said(name, answer, 'check(q, answer)')).toBe('');
    expect(said('1 + 1')).toBe('');
    expect(said(name, answer)).toMatch(/no cell below the answer checks it/);
    expect(said(name, ['const answer = {}; check(q, answer)', 'answer'])).toMatch(/no cell below/);
    expect(said(name, 'check(q, {})')).toMatch(/nothing was taken out/);
    expect(said(answer, 'check(q, answer)')).toMatch(/no cell is tagged student/);
    expect(said(name, 'q.expected()', answer, 'check(q, answer)')).toMatch(
      /code cell 2 .* right figures/,
    );
  });
  it('names that only a teacher’s cell makes are told of; words in texts use no part of the library', () => {
    const cells = [
      { cell_type: 'code', metadata: { tags: ['teacher'] }, source: 'const key = q.expected();' },
      { cell_type: 'code', metadata: {}, source: "`${dip} at twilight` // skyView\nlib['fix']" },
    ];
    const source = { cells, metadata: {}, nbformat: 4, nbformat_minor: 5 } as never;
    const failed = (name: string) => [
      { number: 1, message: `ReferenceError: ${name} is not defined` },
    ];
    expect(leftBehind(failed('key'), source)[0]).toMatch(/code cell 1 .* needs key, which only/);
    expect(leftBehind(failed('mine'), source)).toEqual([]);
    expect([...namesUsed(source)]).toEqual(['key', 'q', 'expected', 'dip', 'lib', 'fix']);
  });
  it('a file that is no notebook, and leaves the old edition as it was', async () => {
    const before = fs.readdirSync(path.join(out, 'student'));
    const bad = path.join(home, 'bad.ipynb');
    fs.writeFileSync(bad, '{"cells": 7}');
    await expect(publish([NOTEBOOKS[0] as string, bad], { out })).rejects.toThrow(/cannot be read/);
    expect(fs.readdirSync(path.join(out, 'student'))).toEqual(before);
  });
  it('HTML in outputs and text that would run or reach out', async () => {
    const file = write('hostile.ipynb', {
      source: `display.html('<img src="https://x.invalid/a.png" onerror="alert(1)"><iframe src="//x.invalid"></iframe><meta http-equiv="refresh" content="0;url=//x.invalid"><b>bold</b>')`,
    });
    await publish([file], { out: target() });
    const page =
      fs.readdirSync(path.join(target(), 'student')).find((f) => f.endsWith('.html')) ?? '';
    const html = fs.readFileSync(path.join(target(), 'student', page), 'utf8');
    const body = html.slice(html.indexOf('<main>'), html.indexOf('</main>'));
    expect(body).toContain('<b>bold</b>');
    expect(body.replace(/<pre class="source">.*?<\/pre>/s, '')).not.toMatch(
      /<img|<iframe|<meta|onerror/,
    );
  });
});
