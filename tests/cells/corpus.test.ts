/** One engine, two hosts and two type engines: the same cells must give the same outputs. */
import fs from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import { CORPUS } from './corpus/index.js';
import { runInNode, runInWorker, type CellOutput } from './support/run-corpus.js';

let inNode: CellOutput[];
let inWorker: CellOutput[];

beforeAll(async () => {
  const codes = CORPUS.map((cell) => cell.code);
  inNode = await runInNode(codes);
  inWorker = await runInWorker(codes);
}, 240_000);

test('the corpus holds 150 cells and more', () => {
  expect(CORPUS.length).toBeGreaterThanOrEqual(150);
  expect([inNode.length, inWorker.length]).toEqual([CORPUS.length, CORPUS.length]);
});

test('README says how many they are', () => {
  const readme = fs.readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  expect(readme).toContain(`(${CORPUS.length} cells compared)`);
});

test.each(CORPUS.map((cell, i) => [i, cell] as const))(
  'cell %i does what is written beside it',
  (i, cell) => {
    for (const output of [inNode[i], inWorker[i]]) {
      const shown = JSON.stringify({ code: cell.code, output }, null, 1);
      expect(output?.error?.ename ?? null, shown).toBe(cell.error ?? null);
      if (cell.says) expect(output?.error?.evalue, shown).toContain(cell.says);
      if (cell.at) expect(output?.error?.trace, shown).toContain(`]${cell.at}`);
      if (cell.result !== undefined) expect(output?.result, shown).toBe(cell.result);
      if (cell.out !== undefined) expect(output?.stdout, shown).toBe(cell.out);
    }
  },
);

test('results, printed text, errors and their places are the same in both hosts', () => {
  // TypeScript 5.0.4 and 5.9 word a few complaints differently; which cells they stop must not differ.
  const comparable = ({ stdout, result, error }: CellOutput) => ({
    stdout,
    result,
    error: error && (error.ename === 'TypeCheckError' ? { ename: error.ename } : error),
  });
  const differences = CORPUS.flatMap((cell, i) => {
    const [a, b] = [inNode[i], inWorker[i]].map((o) => o && comparable(o));
    return JSON.stringify(a) === JSON.stringify(b) ? [] : [{ code: cell.code, node: a, worker: b }];
  });
  expect(differences).toEqual([]);
});
