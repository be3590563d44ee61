import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { toCodePoints, toUnits } from '../../src/kernel/front/code-points.js';
import { addressOf, type Connection } from '../../src/kernel/front/connection.js';
import { History } from '../../src/kernel/front/history.js';
import { isComplete } from '../../src/kernel/front/is-complete.js';
import { isLocalPath } from '../../src/kernel/modules/local-path.js';
import { kernelSpec } from '../../src/kernel/kernelspec.mjs';
import { lateLine } from '../../src/kernel/types/late-line.js';
import { builtKernel } from './support/built-kernel.js';

test('local paths of Windows, macOS and Linux are told from package names', () => {
  const local = [
    './a',
    '../a.ts',
    '.',
    '/Users/a/b.ts',
    'C:\\notes\\a.ts',
    'd:/a.ts',
    '.\\a',
    'file:///a.ts',
  ];
  const names = [
    'arquero',
    'node:fs',
    '@scope/a',
    'a/b',
    'cocked-hat',
    'https://host/a.js',
    '.hidden',
  ];
  expect(local.filter((p) => !isLocalPath(p))).toEqual([]);
  expect(names.filter(isLocalPath)).toEqual([]);
});

test('positions go from code points to UTF-16 units and back', () => {
  const text = 'a🧭b°';
  expect([0, 1, 2, 3, 4].map((n) => toUnits(text, n))).toEqual([0, 1, 3, 4, 5]);
  expect([0, 1, 3, 4, 5].map((n) => toCodePoints(text, n))).toEqual([0, 1, 2, 3, 4]);
});

test('both transports of the connection file make addresses', () => {
  const connection = { transport: 'tcp', ip: '127.0.0.1' } as Connection;
  expect(addressOf(connection, 5555)).toBe('tcp://127.0.0.1:5555');
  expect(addressOf({ ...connection, transport: 'ipc', ip: '/run/k' }, 2)).toBe('ipc:///run/k-2');
});

test('an open block asks for an indented line, a wrong one for none', () => {
  expect(isComplete('for (const a of b) {')).toEqual({ status: 'incomplete', indent: '  ' });
  expect(isComplete('const a: number = 1')).toEqual({ status: 'complete' });
  expect(isComplete(') (')).toEqual({ status: 'invalid' });
});

test('history finds by place and by pattern', () => {
  const history = new History();
  ['a = 1', 'b = 2', 'a = 1'].forEach((line, i) => history.add(i + 1, line));
  expect(history.find({ hist_access_type: 'tail', n: 1 })).toEqual([[1, 3, 'a = 1']]);
  expect(history.find({ hist_access_type: 'range', start: 2, stop: 3 })).toEqual([[1, 2, 'b = 2']]);
  expect(history.find({ hist_access_type: 'search', pattern: 'a*', unique: true })).toHaveLength(1);
});

test('a kernel that cannot load zeromq says so, and what to do', async () => {
  const { dist, env } = await builtKernel();
  const connection = path.join(dist, 'connection.json');
  const breaking = path.join(dist, 'without-zeromq.cjs');
  fs.writeFileSync(connection, JSON.stringify({ ip: '127.0.0.1', transport: 'tcp', key: '' }));
  fs.writeFileSync(
    breaking,
    `const M = require('node:module'); const load = M._load;
     M._load = function (name, ...rest) {
       if (name === 'zeromq') throw new Error('No native build was found');
       return load.call(this, name, ...rest);
     };`,
  );
  const main = path.join(dist, 'kernel', 'main.cjs');
  const { status, stderr } = spawnSync(
    process.execPath,
    ['--require', breaking, main, connection],
    {
      encoding: 'utf8',
      env,
    },
  );
  expect(status).toBe(1);
  expect(stderr).toContain('cannot load the package zeromq');
  expect(stderr).toContain('No native build was found');
  expect(stderr).toContain('npm rebuild zeromq');
});

test('the cells start from what V8 compiled at the build', async () => {
  const { dist } = await builtKernel();
  const folder = path.join(dist, 'kernel');
  const kept = fs.readdirSync(folder).filter((name) => /^cells\..*\.cache$/.test(name));
  expect(kept).toHaveLength(1);
  const program = `const fs = require('node:fs');
    const source = require('node:module').wrap(fs.readFileSync('cells.cjs', 'utf8'));
    const cachedData = fs.readFileSync('${kept[0]}');
    process.stdout.write(String(new (require('node:vm').Script)(source, { cachedData }).cachedDataRejected));`;
  const flags = kernelSpec({ dist }).argv.slice(1, -2);
  const { stdout } = spawnSync(process.execPath, [...flags, '-e', program], {
    cwd: folder,
    encoding: 'utf8',
  });
  expect(stdout).toBe('false');
});

test('what is said to a judge that is not there yet reaches it, and its answers come back', () => {
  const line = lateLine();
  const heard: unknown[] = [];
  const said: unknown[] = [];
  line.listen((answer) => heard.push(answer));
  line.post(1);
  let answer: (message: unknown) => void = () => undefined;
  const judge = { post: (m: unknown) => said.push(m), listen: (f: typeof answer) => (answer = f) };
  line.open({ ...judge, end: () => said.push('end') });
  line.post(2);
  answer('verdict');
  line.end();
  expect([said, heard]).toEqual([[1, 2, 'end'], ['verdict']]);
});
