import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { JobError, UsageError } from '../../src/cli/errors.js';
import {
  chooseDestination,
  findNotebooks,
  readNotebook,
  readSettings,
  readTimeout,
  writeNotebook,
} from '../../src/cli/notebooks/index.js';

let folder: string;
const at = (name: string) => path.join(folder, name);

beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'notebooks-'));
  for (const name of ['b.ipynb', 'a.ipynb', 'notes.txt']) fs.writeFileSync(at(name), '{}');
});
afterEach(() => fs.rmSync(folder, { recursive: true }));

describe('naming notebooks', () => {
  it('takes files as given and the notebooks of a folder in order, none twice', () => {
    expect(findNotebooks([at('b.ipynb'), folder])).toEqual([at('b.ipynb'), at('a.ipynb')]);
  });

  it('refuses what is not there, not a notebook, or a folder without any', () => {
    fs.mkdirSync(at('empty'));
    expect(() => findNotebooks([at('c.ipynb')])).toThrow(/There is no file or folder .*c\.ipynb/);
    expect(() => findNotebooks([at('notes.txt')])).toThrow(/name ends in \.ipynb/);
    expect(() => findNotebooks([at('empty')])).toThrow(/holds no notebook/);
    expect(() => findNotebooks([at('c.ipynb')])).toThrow(UsageError);
  });
});

describe('the place for executed notebooks', () => {
  const choose = (notebooks: string[], out?: string, inPlace = false) =>
    chooseDestination(notebooks, { out, inPlace });

  it('is nowhere, the notebook itself, a file, or a folder', () => {
    expect(choose(['x/a.ipynb'])('x/a.ipynb')).toBeUndefined();
    expect(choose(['x/a.ipynb'], undefined, true)('x/a.ipynb')).toBe('x/a.ipynb');
    expect(choose(['x/a.ipynb'], 'out.ipynb')('x/a.ipynb')).toBe('out.ipynb');
    expect(choose(['x/a.ipynb', 'b.ipynb'], 'out')('x/a.ipynb')).toBe(path.join('out', 'a.ipynb'));
  });

  it('is refused when something would be lost', () => {
    expect(() => choose(['a.ipynb'], 'out', true)).toThrow('-o and --in-place exclude each other');
    expect(() => choose(['a.ipynb', 'b.ipynb'], 'out.ipynb')).toThrow('one file for 2 notebooks');
    expect(() => choose(['x/a.ipynb', 'y/a.ipynb'], 'out')).toThrow(
      'Two notebooks are named a.ipynb',
    );
  });
});

describe('--set', () => {
  it('reads JSON, and anything else as text', () => {
    const words = ['seed=7', 'name=Ascension', 'list=[1,2]', 'on=true', 'sum=1=1', 'none='];
    expect(readSettings(words)).toEqual({
      seed: 7,
      name: 'Ascension',
      list: [1, 2],
      on: true,
      sum: '1=1',
      none: '',
    });
  });

  it.each(['seed', '=7', '2nd=3', 'a b=1'])('refuses %j', (word) => {
    expect(() => readSettings([word])).toThrow(UsageError);
  });
});

describe('--timeout', () => {
  it('is in seconds, and absent means no limit', () => {
    expect(readTimeout('1.5')).toBe(1500);
    expect(readTimeout(undefined)).toBeUndefined();
  });

  it.each(['0', '-1', 'soon', '', '1e9'])('refuses %j', (text) => {
    expect(() => readTimeout(text)).toThrow('--timeout');
  });
});

describe('a notebook file', () => {
  it('that is not JSON or not format 4 is refused with what to do', () => {
    fs.writeFileSync(at('a.ipynb'), '{"cells": [');
    expect(() => readNotebook(at('a.ipynb'))).toThrow(JobError);
    fs.writeFileSync(at('a.ipynb'), '{"worksheets": [], "nbformat": 3}');
    expect(() => readNotebook(at('a.ipynb'))).toThrow('(nbformat 3)');
  });

  it('is written as Jupyter writes it, into folders made for it', () => {
    const notebook = { cells: [], metadata: {}, nbformat: 4, nbformat_minor: 5 };
    writeNotebook(at('new/a.ipynb'), notebook);
    const text = fs.readFileSync(at('new/a.ipynb'), 'utf8');
    expect(text.startsWith('{\n "cells": []')).toBe(true);
    expect(text.endsWith('}\n')).toBe(true);
    expect(readNotebook(at('new/a.ipynb'))).toEqual(notebook);
    expect(fs.readdirSync(at('new'))).toEqual(['a.ipynb']);
  });
});
