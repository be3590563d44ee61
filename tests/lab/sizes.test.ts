/** What a page of JupyterLab loads of ours, packed as a server sends it. */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import zlib from 'node:zlib';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { MIME } from '../../src/views/mime.js';
import { ROOT } from '../support/root.js';

interface Bundle {
  /** Every script of the extension: its size packed, and what it loads with it. */
  readonly scripts: Readonly<
    Record<
      string,
      { readonly kB: number; readonly imports: readonly string[]; readonly entry: string }
    >
  >;
}

let home: string;
let scripts: Bundle['scripts'];
beforeAll(async () => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-sizes-'));
  const { buildLab } = (await import(path.join(ROOT, 'src', 'lab', 'build.mjs'))) as {
    buildLab(options: { outdir: string }): Promise<{ metafile: EsbuildOutputs }>;
  };
  const { metafile } = await buildLab({ outdir: path.join(home, 'labextension') });
  scripts = Object.fromEntries(
    Object.entries(metafile.outputs)
      .filter(([file]) => file.endsWith('.js'))
      .map(([file, output]) => {
        const bytes = fs.readFileSync(path.resolve(ROOT, file));
        const kB = zlib.gzipSync(bytes, { level: 9 }).length / 1000;
        const imports = output.imports.filter((i) => i.kind === 'import-statement');
        const entry = output.entryPoint ?? '';
        return [file, { kB, imports: imports.map((i) => i.path), entry }];
      }),
  );
});
afterAll(() => fs.rmSync(home, { recursive: true, force: true }));

interface EsbuildOutputs {
  readonly outputs: Readonly<
    Record<
      string,
      {
        readonly imports: readonly { readonly path: string; readonly kind: string }[];
        readonly entryPoint?: string;
      }
    >
  >;
}

/** kB of a script and all that it needs before it can run, but for what was loaded before. */
function loadedWith(file: string, before: ReadonlySet<string> = new Set()) {
  const files = new Set<string>();
  const add = (name: string): void => {
    if (files.has(name) || before.has(name)) return;
    files.add(name);
    scripts[name]?.imports.forEach(add);
  };
  add(file);
  return { files, kB: [...files].reduce((sum, name) => sum + (scripts[name]?.kB ?? 0), 0) };
}
const entry = (end: string) => {
  const found = Object.keys(scripts).find((file) => scripts[file]?.entry.endsWith(end));
  if (!found) throw new Error(`no script is made of ${end}`);
  return found;
};

/** Libraries that are no code of ours, each in a script of its own. */
const LIBRARIES = ['plotly', 'katex', 'grid', 'coast', 'bench-score'];
/** kB packed of a view of each kind in a page that has no other, without the libraries: what it may come to. */
const MOST_KB = 150;

test('a page without a view of ours loads under 15 kB', () => {
  expect(loadedWith(entry('lab/main.ts')).kB).toBeLessThan(15);
});

test(`every view is a script of its own and comes with under ${MOST_KB} kB of ours`, () => {
  const first = loadedWith(entry('lab/main.ts')).files;
  const views = {
    working: 'working/working.ts',
    chart: 'chart/chart.ts',
    residuals: 'residuals/residuals.ts',
    uncertainty: 'uncertainty/uncertainty.ts',
    passage: 'passage/passage.ts',
    log: 'log/log-table.ts',
    instrument: 'instrument/instrument.ts',
    edit: 'edit/edit.ts',
    bench: 'bench/bench.ts',
    sky: 'sky/sky.ts',
    plotly: 'render/plotly-figure.ts',
  } satisfies Record<keyof typeof MIME, string>;
  for (const [name, file] of Object.entries(views)) {
    const { kB } = loadedWith(entry(file), first);
    console.log(`${name}: ${kB.toFixed(0)} kB`);
    expect(kB, name).toBeLessThan(MOST_KB);
  }
});

test('all of our own code together is under 230 kB (asked for are 274: 124 for the first five views, 150 more)', () => {
  const own = Object.entries(scripts).filter(
    ([file]) => !LIBRARIES.some((name) => path.basename(file).startsWith(name)),
  );
  const total = own.reduce((sum, [, { kB }]) => sum + kB, 0);
  console.log(`own code: ${total.toFixed(0)} kB`);
  expect(total).toBeLessThan(230);
});
