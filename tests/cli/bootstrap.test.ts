import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { SetupFailure } from '../../src/cli/bootstrap/failure.mjs';
import { fingerprint, Stamp } from '../../src/cli/bootstrap/fingerprint.mjs';
import { nodePackagesAreFresh } from '../../src/cli/bootstrap/node-packages.mjs';
import { hasDisplay } from '../../src/cli/bootstrap/open-browser.mjs';
import { descendants, endTree, isAlive } from '../../src/cli/bootstrap/process-tree.mjs';
import { findPython, pythonEnvironment } from '../../src/cli/bootstrap/python.mjs';
import { isNewEnough } from '../../src/cli/bootstrap/require-node.mjs';
import { runProgram } from '../../src/cli/bootstrap/run-program.mjs';
import { countTests } from '../../src/cli/bootstrap/test-count.mjs';
import { ROOT } from '../../src/cli/bootstrap/paths.mjs';
import { whatToOpen } from '../../src/cli/bootstrap/what-to-open.mjs';

let folder: string;

beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'bootstrap-'));
});
afterEach(() => fs.rmSync(folder, { recursive: true }));

describe('the version of Node.js', () => {
  it.each([
    ['20.19.0', true],
    ['20.20.2', true],
    ['22.0.0', true],
    ['20.18.3', false],
    ['18.20.0', false],
  ])('%s is new enough: %s', (version, enough) => {
    expect(isNewEnough(version)).toBe(enough);
  });
});

describe('what is opened', () => {
  const inside = (name: string) => path.join(ROOT, 'notebooks', name);

  it('is the whole checkout for what lies in it', () => {
    expect(whatToOpen(undefined)).toEqual({
      root: ROOT,
      first: path.join(ROOT, 'notebooks'),
      page: '/lab',
    });
    expect(whatToOpen(inside('01-the-reading.ipynb'))).toEqual({
      root: ROOT,
      first: path.join(ROOT, 'notebooks'),
      page: '/lab/tree/notebooks/01-the-reading.ipynb',
    });
  });

  it("is a user's own folder alone, with a workspace of its own, for anything else", () => {
    const notebook = path.join(folder, 'my log.ipynb');
    fs.writeFileSync(notebook, '{}');
    const opened = whatToOpen(notebook);
    expect(opened).toMatchObject({ root: folder, first: folder });
    expect(opened.page).toMatch(/^\/lab\/workspaces\/folder-[0-9a-f]{8}\/tree\/my%20log\.ipynb$/);
    const [workspace] = /folder-\w+/.exec(opened.page)!;
    expect(whatToOpen(folder).page).toBe(`/lab/workspaces/${workspace}`);
    expect(whatToOpen(os.tmpdir()).page).not.toContain(workspace);
  });

  it('is nothing that is not there', () => {
    const none = path.join(folder, 'none');
    expect(() => whatToOpen(none)).toThrow(/There is no file or folder/);
    expect(() => whatToOpen(none)).toThrow(`make it first: mkdir ${none}`);
    expect(() => whatToOpen(`${none}.ipynb`)).toThrow('open its folder and choose File, New');
  });
});

describe('the fingerprint of sources', () => {
  it('changes with content, name, a new file and the extra word, and with nothing else', () => {
    const file = path.join(folder, 'a.ts');
    fs.writeFileSync(file, 'one');
    const first = fingerprint([folder]);
    fs.utimesSync(file, 0, 0);
    expect(fingerprint([folder])).toBe(first);
    expect(fingerprint([folder], 'other node')).not.toBe(first);
    fs.writeFileSync(file, 'two');
    const second = fingerprint([folder]);
    expect(second).not.toBe(first);
    fs.renameSync(file, path.join(folder, 'b.ts'));
    const third = fingerprint([folder]);
    expect(third).not.toBe(second);
    fs.writeFileSync(path.join(folder, 'c.ts'), '');
    expect(fingerprint([folder])).not.toBe(third);
  });

  it('is kept by a stamp until cleared', () => {
    const stamp = new Stamp(path.join(folder, 'deep', 'stamp'));
    expect(stamp.holds('x')).toBe(false);
    stamp.set('x');
    expect(stamp.holds('x')).toBe(true);
    expect(stamp.holds('y')).toBe(false);
    stamp.clear();
    expect(stamp.holds('x')).toBe(false);
  });
});

describe('a program that set-up runs', () => {
  it('reports a failure with its last words, the log and what to do', async () => {
    const code = 'console.log("reading"); console.error("no such wheel"); process.exit(3)';
    const failed = runProgram(process.execPath, ['-e', code], {
      log: 'probe',
      what: 'installing nothing',
      remedy: 'try again',
    });
    const error = (await failed.catch((reason: unknown) => reason)) as SetupFailure;
    expect(error).toBeInstanceOf(SetupFailure);
    const text = error.toText();
    expect(text).toMatch(/^Failed: installing nothing \(node(\.exe)? ended with 3\)/);
    expect(text).toContain('    no such wheel');
    expect(text).toMatch(/Full output: \.cache.logs.probe\.log/);
    expect(text).toContain('What to do: try again');
  });

  it('that does not exist is a failure as well, not a crash', async () => {
    const failed = runProgram('no-such-program-here', [], { log: 'probe', what: 'x', remedy: 'y' });
    await expect(failed).rejects.toThrow(SetupFailure);
  });
});

describe('Python', () => {
  it('is found in a version from 3.11 on', () => {
    expect(findPython()?.length).toBeGreaterThan(0);
  });

  it('runs without packages from outside .env', () => {
    process.env['PYTHONPATH'] = '/elsewhere';
    try {
      expect(pythonEnvironment()).not.toHaveProperty('PYTHONPATH');
      expect(pythonEnvironment()['PYTHONNOUSERSITE']).toBe('1');
    } finally {
      delete process.env['PYTHONPATH'];
    }
  });
});

it('finds the npm packages of this checkout in order', () => {
  expect(nodePackagesAreFresh()).toBe(true);
});

describe('a display', () => {
  it.each([
    ['linux', {}, false],
    ['linux', { DISPLAY: ':0' }, true],
    ['linux', { WAYLAND_DISPLAY: 'wayland-0' }, true],
    ['darwin', {}, true],
    ['darwin', { SSH_CONNECTION: '10.0.0.1' }, false],
    ['win32', {}, true],
  ])('on %s with %o: %s', (platform, env, there) => {
    expect(hasDisplay({ platform, env } as unknown as NodeJS.Process)).toBe(there);
  });
});

it('ends a program together with those that it started', async () => {
  const inner = `process.stdout.write("up"); setTimeout(() => {}, 60000)`;
  const outer = `require("node:child_process").spawn(process.execPath, ["-e", ${JSON.stringify(inner)}], { stdio: "inherit", detached: true })`;
  const child = spawn(process.execPath, ['-e', outer], { stdio: ['ignore', 'pipe', 'ignore'] });
  const ended = new Promise((resolve) => child.once('exit', resolve));
  await new Promise((resolve) => child.stdout.once('data', resolve));
  const family = descendants(child.pid!);
  expect(family.length).toBe(1);
  endTree(child.pid!);
  await ended;
  await expect.poll(() => family.filter(isAlive)).toEqual([]);
});

describe('the count of tests', () => {
  const report = (value: object) => {
    const file = path.join(folder, 'report.json');
    fs.writeFileSync(file, JSON.stringify(value));
    return file;
  };
  const totals = { numPassedTests: 5, numFailedTests: 1, numPendingTests: 2, numTodoTests: 0 };

  it('takes the totals of the report', () => {
    const testResults = [{ status: 'failed', assertionResults: [{ status: 'failed' }] }];
    const counts = countTests(report({ ...totals, testResults }));
    expect(counts).toEqual({ passed: 5, failed: 1, skipped: 2 });
  });

  it('counts a file that could not even be read as a failure', () => {
    const testResults = [
      { status: 'failed', assertionResults: [{ status: 'failed' }] },
      { status: 'failed', assertionResults: [] },
    ];
    expect(countTests(report({ ...totals, testResults })).failed).toBe(2);
  });

  it('is one failure when the runner left no report', () => {
    expect(countTests(path.join(folder, 'none.json')).failed).toBe(1);
  });
});
