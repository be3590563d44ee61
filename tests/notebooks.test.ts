/** Every notebook still runs and still shows what it showed when its outputs were kept (npm run notebooks). */
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROOT } from '../src/cli/bootstrap/paths.mjs';
import { runNotebook, type Cell, type Notebook } from '../src/kernel/index.js';
import { textOf } from '../src/kernel/runner/notebook.js';
import { compareOutputs } from './support/compare-outputs.js';

const FOLDER = path.join(ROOT, 'notebooks');
const NAMES = fs
  .readdirSync(FOLDER)
  .filter((name) => name.endsWith('.ipynb'))
  .sort();

/** Longest time for one cell on a busy machine; the slowest takes a few seconds. */
const CELL_MS = 120_000;

function read(name: string): Notebook {
  return JSON.parse(fs.readFileSync(path.join(FOLDER, name), 'utf8')) as Notebook;
}

const codeCells = ({ cells }: Notebook) => cells.filter((cell) => cell.cell_type === 'code');
const isTagged = (cell: Cell, tag: string) => cell.metadata.tags?.includes(tag) ?? false;

/** Differences of all cells, each with the number of its code cell. */
function differences(kept: Notebook, now: Notebook): string[] {
  const after = codeCells(now);
  return codeCells(kept).flatMap((cell, index) =>
    compareOutputs(cell.outputs ?? [], after[index]?.outputs ?? [], `code cell ${index + 1}`),
  );
}

describe('the notebooks', () => {
  it('are there', () => {
    expect(NAMES.length).toBeGreaterThan(0);
  });

  describe.each(NAMES)('%s', (name) => {
    it('is kept with its outputs, and without errors that it does not announce', () => {
      const cells = codeCells(read(name));
      expect(cells.length).toBeGreaterThan(0);
      expect(cells.some((cell) => (cell.outputs ?? []).length > 0)).toBe(true);
      for (const cell of cells) {
        const failed = cell.outputs?.some((output) => output.output_type === 'error') ?? false;
        expect(failed, String(cell.source)).toBe(isTagged(cell, 'raises-exception'));
      }
    });

    it('keeps no path of the machine it was run on', () => {
      expect(fs.readFileSync(path.join(FOLDER, name), 'utf8')).not.toMatch(
        /file:\/\/|node_modules/,
      );
    });

    it('runs and shows what was kept', { timeout: 600_000 }, async () => {
      const file = path.join(FOLDER, name);
      const { notebook, failure } = await runNotebook(file, { timeoutMs: CELL_MS });
      expect(failure?.error.traceback.join('\n')).toBeUndefined();
      expect(differences(read(name), notebook)).toEqual([]);
    });
  });
});

const EXERCISES = path.join(FOLDER, 'exercises');
const SETS = fs.readdirSync(EXERCISES).filter((name) => name.endsWith('.ipynb'));

describe('the exercises', () => {
  it('are six', () => {
    expect(SETS.length).toBe(6);
  });
  // The teacher's copy: solutions in place, types checked as in JupyterLab.
  it.each(SETS)(
    '%s runs, its types hold, and its own solution is right',
    { timeout: 600_000 },
    async (name) => {
      const file = path.join(EXERCISES, name);
      const { notebook, failure } = await runNotebook(file, { timeoutMs: CELL_MS });
      expect(failure?.error.traceback.join('\n')).toBeUndefined();
      const [output] = codeCells(notebook).at(-1)?.outputs ?? [];
      const data = output?.output_type === 'execute_result' ? output.data : {};
      expect(textOf((data['text/plain'] ?? '') as string)).toMatch(
        /(?:All \d+|Both) lines are right/,
      );
    },
  );
});
