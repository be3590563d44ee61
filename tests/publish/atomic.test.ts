import { execFileSync, fork } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkedName, writeEdition } from '../../src/publish/write/atomic.js';
import { ROOT } from '../support/root.js';

let home: string;
beforeEach(() => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'edition-'));
});
afterEach(() => fs.rmSync(home, { recursive: true, force: true }));

const bytes = (text: string) => Buffer.from(text);
const visible = (folder: string) => fs.readdirSync(folder).filter((name) => !name.startsWith('.'));

describe('writing an edition', () => {
  it('replaces the old one as a whole', () => {
    const out = path.join(home, 'class');
    writeEdition(out, [{ name: 'student/a.html', bytes: bytes('1') }]);
    writeEdition(out, [{ name: 'student/b.html', bytes: bytes('2') }]);
    expect(visible(path.join(out, 'student'))).toEqual(['b.html']);
    expect(fs.readdirSync(home)).toEqual(['class']);
  });
  it('leaves a folder alone that holds other files', () => {
    const out = path.join(home, 'mine');
    fs.mkdirSync(out);
    fs.writeFileSync(path.join(out, 'thesis.txt'), 'years of work');
    expect(() => writeEdition(out, [{ name: 'a', bytes: bytes('1') }])).toThrow(/no publish made/);
    expect(fs.readdirSync(out)).toEqual(['thesis.txt']);
  });
  it.each(['../x', 'a/../../x', '/etc/x', 'a\\b', 'con\0', 'a//b', '.', 'a:b'])(
    'refuses the name %j',
    (name) => {
      expect(() => checkedName(name)).toThrow(/no file name below the output folder/);
      expect(() => writeEdition(path.join(home, 'o'), [{ name, bytes: bytes('') }])).toThrow();
      expect(fs.existsSync(path.join(home, 'x'))).toBe(false);
    },
  );
  it('leaves the old edition whole when it is killed at any moment', async () => {
    const out = path.join(home, 'class');
    const script = path.join(home, 'write.mjs');
    const module = path.join(home, 'atomic.mjs');
    const { build } = await import('esbuild');
    await build({
      entryPoints: [path.join(ROOT, 'src/publish/write/atomic.ts')],
      outfile: module,
      platform: 'node',
      format: 'esm',
      bundle: true,
      logLevel: 'error',
    });
    // 60 files of one letter: a mixture of letters would be a torn edition.
    fs.writeFileSync(
      script,
      `import { writeEdition } from './atomic.mjs';
       for (let i = 0; ; i++) {
         const letter = 'abcdefgh'[i % 8];
         writeEdition(${JSON.stringify(out)}, Array.from({ length: 60 }, (_, k) => ({ name: k + '.txt', bytes: Buffer.from(letter.repeat(2000)) })));
         process.send?.(i);
       }`,
    );
    for (let round = 0; round < 12; round++) {
      const child = fork(script, { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
      await new Promise((resolve) => child.once('message', resolve));
      await new Promise((resolve) => setTimeout(resolve, 3 + 7 * round));
      const ended = new Promise((resolve) => child.once('exit', resolve));
      child.kill('SIGKILL');
      await ended;
      // Between the two renames the old edition lies aside; the next publish brings it back or replaces it.
      const place = fs.existsSync(out)
        ? out
        : path.join(
            home,
            fs.readdirSync(home).find((name) => name.startsWith('.class.old-')) ?? '',
          );
      const files = visible(place);
      expect(files.length).toBe(60);
      const letters = new Set(files.map((f) => fs.readFileSync(path.join(place, f), 'utf8')));
      expect(letters.size).toBe(1);
    }
    writeEdition(out, [{ name: 'x.txt', bytes: bytes('new') }]);
    expect(fs.readdirSync(home).sort()).toEqual(['atomic.mjs', 'class', 'write.mjs']);
  });
  it('leaves the old edition when the command itself is killed while cells run, and no process of it goes on', async () => {
    const out = path.join(home, 'class');
    writeEdition(out, [{ name: 'student/a.html', bytes: bytes('old') }]);
    const notebook = path.join(home, 'endless.ipynb');
    // A cell that goes on until it is ended; its processes are known by the folder they may read.
    fs.writeFileSync(
      notebook,
      JSON.stringify({
        nbformat: 4,
        nbformat_minor: 5,
        metadata: {},
        cells: [
          {
            id: 'a',
            cell_type: 'code',
            metadata: {},
            source: 'await new Promise(() => setInterval(() => {}, 50));',
            outputs: [],
            execution_count: null,
          },
        ],
      }),
    );
    const cli = fork(path.join(ROOT, 'dist', 'cli.js'), ['publish', notebook, '-o', out], {
      stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
    });
    const ended = new Promise((resolve) => cli.once('exit', resolve));
    const children = () =>
      execFileSync('ps', ['-A', '-o', 'pid=,args='], { encoding: 'utf8' })
        .split('\n')
        .filter((line) => line.includes('sandbox.cjs') && line.includes(`=${home}`));
    await expect.poll(() => children().length).toBe(2);
    cli.kill('SIGKILL');
    await ended;
    expect(fs.readFileSync(path.join(out, 'student', 'a.html'), 'utf8')).toBe('old');
    await expect.poll(() => children().length).toBe(0);
  });
});
