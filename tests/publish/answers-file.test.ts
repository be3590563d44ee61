import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  answersText,
  AnswersFileError,
  readAnswers,
} from '../../src/publish/client/answers-file.js';
import { Store } from '../../src/publish/client/store.js';

const FACTS = {
  notebook: 'n',
  title: 'N',
  kind: 'student',
  version: 'v',
  library: '1',
  data: {},
  licence: 'MIT',
  cautions: [],
} as const;

describe('a file of answers', () => {
  it('is read as it was written', () => {
    const cells = new Map([
      ['answer', "const answer = { dip: '−2.8′' };"],
      ['name', "const student = 'Åsa';"],
    ]);
    expect(readAnswers(answersText(FACTS, cells)).cells).toEqual(Object.fromEntries(cells));
  });
  it.each([
    ['{', /not JSON/],
    ['[]', /its format is not/],
    ['null', /its format is not/],
    ['{"format":"cocked-hat answers","formatVersion":2}', /format version 2/],
    [
      '{"format":"cocked-hat answers","formatVersion":1,"notebook":"n","edition":"v","library":"1"}',
      /no cells/,
    ],
    [
      '{"format":"cocked-hat answers","formatVersion":1,"notebook":"n","edition":"v","library":"1","cells":{"a b":"x"}}',
      /cannot name a cell/,
    ],
    [
      '{"format":"cocked-hat answers","formatVersion":1,"notebook":"n","edition":"v","library":"1","cells":{"a":7}}',
      /is not text/,
    ],
    [
      '{"format":"cocked-hat answers","formatVersion":1,"notebook":7,"edition":"v","library":"1","cells":{}}',
      /notebook is not a short text/,
    ],
  ])('is refused with the reason: %s', (text, reason) => {
    expect(() => readAnswers(text)).toThrow(reason);
  });
  it('of an earlier edition brings the answers, and no old text in place of a correction', () => {
    const cell = (id: string, role: 'answer' | 'free', source: string) =>
      ({ id, role, source, kind: 'code', outputs: [] }) as const;
    const cells = [cell('a', 'answer', 'x'), cell('f', 'free', 'new'), cell('g', 'free', 'same')];
    const mine = new Map(['a', 'f', 'g', 'gone'].map((id) => [id, 'mine']));
    const originals = new Map(Object.entries({ a: 'y', f: 'old', g: 'same', gone: '' }));
    const file = readAnswers(answersText({ ...FACTS, version: 'old' }, mine, originals));
    const store = new Store({ ...FACTS, version: 'new' }, cells);
    expect(store.replace(file)).toEqual({ taken: 2, corrected: 1 });
    expect(['a', 'f', 'g', 'gone'].map((id) => store.get(id))).toEqual([
      'mine',
      undefined,
      'mine',
      undefined,
    ]);
    // What was written to this very edition is the student's, all of it.
    expect(store.replace({ ...file, edition: 'new' })).toEqual({ taken: 3, corrected: 0 });
    expect(readAnswers(store.text).originals).toEqual({ a: 'x', f: 'new', g: 'same' });
  });
  it('is refused when it is too large', () => {
    const cells = new Map([['a', 'x'.repeat(100_001)]]);
    expect(() => readAnswers(answersText(FACTS, cells))).toThrow(/longer than 100000/);
    expect(() => readAnswers(' '.repeat(2_000_001))).toThrow(/2 MB/);
  });
  it('of any text whatever is read or refused by name', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        try {
          readAnswers(text);
        } catch (error) {
          expect(error).toBeInstanceOf(AnswersFileError);
        }
      }),
    );
  });
  it('with a name like __proto__ changes no object', () => {
    const text = answersText(FACTS, new Map()).replace(
      '"cells": {}',
      '"cells": {"__proto__": "x"}',
    );
    const { cells } = readAnswers(text);
    expect(Object.getPrototypeOf({})).toBe(Object.prototype);
    expect(({} as Record<string, unknown>)['x']).toBeUndefined();
    expect(Object.keys(cells).length).toBeLessThanOrEqual(1);
  });
});
