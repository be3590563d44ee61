import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { writeChecksums } from '../../src/cli/bootstrap/checksums.mjs';
import { checksFor, tell } from '../../src/cli/commands/doctor.js';
import { refuseInstalled } from '../../src/cli/commands/open.js';
import { JobError } from '../../src/cli/errors.js';
import {
  bad,
  checkData,
  checkExtension,
  checkKernelspec,
  checkNode,
  good,
  note,
} from '../../src/cli/doctor/index.js';
import { recordedTerminal } from './recorded-terminal.js';

let folder: string;

beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'doctor-'));
});
afterEach(() => fs.rmSync(folder, { recursive: true }));

function write(name: string, text: string) {
  const file = path.join(folder, name);
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, text);
}

describe('the report', () => {
  it('ends with code 0 when nothing is bad, notes included', () => {
    const { terminal, output } = recordedTerminal();
    expect(tell([good('Node.js', '20.19'), note('Chromium', 'none', 'get one')], terminal)).toBe(0);
    expect(output()).toContain('All is well.');
  });

  it('ends with code 1 and shows the remedy under a bad finding', () => {
    const { terminal, output } = recordedTerminal();
    expect(tell([good('Node.js', '20.19'), bad('Data', 'gone', 'fetch it')], terminal)).toBe(1);
    expect(output()).toMatch(/BAD {3}Data +gone\n +→ fetch it\n\n1 to mend/);
  });
});

describe('the installed package', () => {
  it('is asked for nothing that only the folder of Cocked Hat has', () => {
    const findings = checksFor(true).map((check) => check());
    expect(findings.map(({ subject }) => subject)).toEqual(['Node.js', 'Data', 'JupyterLab']);
    expect(JSON.stringify(findings)).not.toContain('npm start');
    expect(checksFor(false).length).toBeGreaterThan(findings.length);
  });

  it('says that it has no JupyterLab to open, and what to do', () => {
    expect(() => refuseInstalled(true)).toThrow(JobError);
    expect(() => refuseInstalled(false)).not.toThrow();
  });
});

describe('the check of the data files', () => {
  beforeEach(() => {
    write('stars.json', '[1]');
    write('logs/passage.csv', 'a,b\n');
    write('README.md', 'not data');
    writeChecksums(folder);
  });

  it('is content with the files as they were noted', () => {
    expect(checkData(folder)).toMatchObject({ state: 'good', text: expect.stringMatching(/^2 /) });
  });

  it('does not mind a changed explanation', () => {
    write('README.md', 'still not data');
    expect(checkData(folder).state).toBe('good');
  });

  it('names a changed, a missing and an unlisted file', () => {
    write('stars.json', '[2]');
    fs.rmSync(path.join(folder, 'logs/passage.csv'));
    write('new.csv', 'c\n');
    const { state, text } = checkData(folder);
    expect(state).toBe('bad');
    expect(text).toContain('stars.json was changed');
    expect(text).toContain('logs/passage.csv is missing');
    expect(text).toContain('new.csv is not listed');
  });

  it('misses the list itself', () => {
    fs.rmSync(path.join(folder, 'SHA256SUMS'));
    expect(checkData(folder).text).toContain('SHA256SUMS is missing');
  });

  it('is content with the data of this checkout', () => {
    expect(checkData()).toMatchObject({ state: 'good' });
  });
});

describe('the check of the kernel entry', () => {
  const spec = (program: string) =>
    JSON.stringify({ display_name: 'TypeScript', argv: [process.execPath, program, '{file}'] });

  it('finds it missing, broken, pointing nowhere, and good', () => {
    expect(checkKernelspec(folder).state).toBe('bad');
    write('kernels/cocked-hat/kernel.json', '{');
    expect(checkKernelspec(folder).state).toBe('bad');
    const gone = path.join(folder, 'gone.js');
    write('kernels/cocked-hat/kernel.json', spec(gone));
    expect(checkKernelspec(folder).text).toContain(gone);
    write('gone.js', '');
    expect(checkKernelspec(folder)).toEqual(good('Kernel', 'TypeScript is registered'));
  });
});

describe('the check of the extension', () => {
  it('finds it missing, incomplete, and good', () => {
    expect(checkExtension(folder).state).toBe('bad');
    write(
      'labextensions/cocked-hat/package.json',
      JSON.stringify({ version: '1.2.3', jupyterlab: { _build: { load: 'static/entry.js' } } }),
    );
    expect(checkExtension(folder).text).toContain('entry.js is missing');
    write('labextensions/cocked-hat/static/entry.js', '');
    expect(checkExtension(folder)).toEqual(good('Extension', 'version 1.2.3 is registered'));
  });
});

it('finds the Node.js that runs the tests new enough', () => {
  expect(checkNode().state).toBe('good');
});
