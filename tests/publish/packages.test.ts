import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { textOf, type Notebook } from '../../src/kernel/runner/notebook.js';
import { ROOT } from '../support/root.js';
import { PYTHON } from '../support/python.js';

/** Most of the time goes into fetching and installing packages, which a slow network and two other tests may stretch. */
const INSTALLING_MS = 300_000;
const NOTEBOOK = path.join(ROOT, 'notebooks', 'exercises', '2-sun-altitude.ipynb');
/** A path without this checkout's programs: what is found there was brought by the package. */
const bare = (folder: string) => ({
  PATH: [folder, '/usr/bin', '/bin'].join(path.delimiter),
  HOME: home,
  JUPYTER_PREFER_ENV_PATH: '1',
  TMPDIR: os.tmpdir(),
});

let home: string;
let packages: { npm: string; wheel: string };
beforeAll(async () => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'packages-'));
  const { buildPackages } = (await import(
    path.join(ROOT, 'src', 'publish', 'package', 'build-packages.mjs')
  )) as { buildPackages(out: string): typeof packages };
  packages = buildPackages(path.join(home, 'out'));
});
afterAll(() => fs.rmSync(home, { recursive: true, force: true }));

const run = (program: string, words: string[], options: object = {}) =>
  execFileSync(program, words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'], ...options });

/** Runs a notebook by papermill (PyPI papermill 2.7.0) with other parameters; the texts of its results. */
function byPapermill(bin: string): string[] {
  const cell = (source: string, tags: string[]) => ({
    cell_type: 'code',
    metadata: { tags },
    source,
    execution_count: null,
    outputs: [],
  });
  const declared = `let seed: number = 1;\nconst names = ['a'];\nlet who = 'B'; // the observer`;
  const cells = [
    cell(declared, ['parameters']),
    cell('`${who} ${seed * 2} ${names.join("+")}`', []),
  ];
  const kernelspec = { name: 'cocked-hat', display_name: '', language: 'typescript' };
  const notebook = { nbformat: 4, nbformat_minor: 4, metadata: { kernelspec }, cells };
  fs.writeFileSync(path.join(home, 'in.ipynb'), JSON.stringify(notebook));
  const set = ['-p', 'who', 'Ana "Lima"', '-p', 'seed', '7', '-y', 'names: [x, y]'];
  const options = { env: bare(bin), cwd: home };
  run(path.join(bin, 'papermill'), ['in.ipynb', 'out.ipynb', ...set], options);
  const { cells: after } = JSON.parse(
    fs.readFileSync(path.join(home, 'out.ipynb'), 'utf8'),
  ) as Notebook;
  return after.flatMap(({ outputs = [] }) =>
    outputs.map((output) =>
      textOf((output as { data: Record<string, string> }).data['text/plain'] ?? ''),
    ),
  );
}

describe('the wheel, in an empty environment', () => {
  it(
    'brings kernel, extension, command and Node, and Jupyter runs a notebook with it',
    () => {
      const env = path.join(home, 'env');
      const bin = path.join(env, 'bin');
      run(PYTHON, ['-m', 'venv', env]);
      run(path.join(bin, 'pip'), [
        'install',
        '-q',
        '--disable-pip-version-check',
        packages.wheel,
        'nbclient==0.11.0',
        'papermill==2.7.0',
      ]);
      const share = path.join(env, 'share', 'jupyter');
      expect(fs.existsSync(path.join(share, 'kernels', 'cocked-hat', 'kernel.json'))).toBe(true);
      const extension = path.join(share, 'labextensions', 'cocked-hat');
      const { jupyterlab } = JSON.parse(
        fs.readFileSync(path.join(extension, 'package.json'), 'utf8'),
      ) as {
        jupyterlab: { _build: { load: string } };
      };
      expect(fs.existsSync(path.join(extension, jupyterlab._build.load))).toBe(true);

      const file = path.join(home, 'lesson.ipynb');
      fs.copyFileSync(NOTEBOOK, file);
      run(path.join(bin, 'jupyter'), ['execute', '--inplace', file], { env: bare(bin), cwd: home });
      const { cells } = JSON.parse(fs.readFileSync(file, 'utf8')) as Notebook;
      const output = cells.at(-1)?.outputs?.[0] as { data: Record<string, string[]> };
      expect(textOf(output.data['text/plain'] ?? '')).toContain('All 7 lines are right');
      expect(
        run(path.join(bin, 'cocked-hat'), ['run', file], { env: bare(bin), cwd: home }),
      ).toContain('4 cells');
      expect(byPapermill(bin)).toEqual([`'Ana "Lima" 14 x+y'`]);
      const out = path.join(home, 'class');
      run(path.join(bin, 'cocked-hat'), ['publish', file, '-o', out], {
        env: bare(bin),
        cwd: home,
      });
      expect(fs.readdirSync(path.join(out, 'student')).length).toBe(2);
    },
    INSTALLING_MS,
  );
});

describe('the npm package, in an empty folder', () => {
  it(
    'runs and publishes a notebook by its command, and is imported by its name',
    () => {
      const folder = path.join(home, 'project');
      fs.mkdirSync(folder);
      fs.writeFileSync(
        path.join(folder, 'package.json'),
        '{"name":"project","private":true,"type":"module"}',
      );
      run('npm', ['install', '--no-audit', '--no-fund', '--ignore-scripts', packages.npm], {
        cwd: folder,
      });
      const file = path.join(folder, 'lesson.ipynb');
      fs.copyFileSync(NOTEBOOK, file);
      const command = path.join(folder, 'node_modules', '.bin', 'cocked-hat');
      expect(run(command, ['run', file], { cwd: folder })).toContain('4 cells');
      run(command, ['publish', file, '-o', path.join(folder, 'class')], { cwd: folder });
      expect(fs.readdirSync(path.join(folder, 'class', 'student')).length).toBe(2);
      expect(run(command, ['doctor'], { cwd: folder })).toMatch(/installed package[^]*All is well/);
      const code = `import { angle, SightLog } from 'cocked-hat'; console.log(angle('41°18.6′').degrees, typeof SightLog.fromCsv)`;
      expect(run(process.execPath, ['--input-type=module', '-e', code], { cwd: folder })).toBe(
        '41.31 function\n',
      );
    },
    INSTALLING_MS,
  );
});
