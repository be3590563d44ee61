import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { notebookText, runNotebook, type Notebook } from '../../src/kernel/index.js';
import { ROOT } from '../../src/cli/bootstrap/paths.mjs';
import { makeSnapshot } from '../../src/kernel/types/make-snapshot.js';
import { snapshotName } from '../../src/kernel/types/snapshot-name.mjs';
import { builtKernel } from './support/built-kernel.js';

const code = (source: string, tags: string[] = []) => ({
  cell_type: 'code' as const,
  source,
  metadata: { tags },
});
const notebook = (...cells: ReturnType<typeof code>[]): Notebook => ({
  nbformat: 4,
  nbformat_minor: 4,
  metadata: {},
  cells,
});

async function run(source: Notebook, options = {}) {
  const { dist } = await builtKernel();
  const program = path.join(dist, 'kernel', 'runner.cjs');
  return runNotebook(source, { cwd: ROOT, program, ...options });
}

describe('a notebook without Jupyter', () => {
  test('gets its outputs in format 4.5 and the source stays as it was', async () => {
    const source = notebook(
      code('console.log("a"); console.log("b"); 6 * 7'),
      code('display("v", { id: "k" })'),
      code('display.update("k", "w")'),
    );
    const { notebook: made, failure } = await run(source);
    expect(failure).toBeNull();
    expect(source.cells[0]).not.toHaveProperty('outputs');
    expect(made.nbformat_minor).toBe(5);
    expect(made.cells[0]?.outputs).toEqual([
      { output_type: 'stream', name: 'stdout', text: ['a\n', 'b\n'] },
      {
        output_type: 'execute_result',
        execution_count: 1,
        data: { 'text/plain': ['42'] },
        metadata: {},
      },
    ]);
    expect(made.cells[1]?.outputs?.[0]).toMatchObject({ data: { 'text/plain': ["'w'"] } });
    expect(JSON.parse(notebookText(made))).toEqual(made);
  });

  test('is checked in a thread where there is no snapshot for this Node, and one can be made', async () => {
    const { dist } = await builtKernel();
    const bare = path.join(dist, 'without-snapshot');
    const isSnapshot = (file: string): boolean => file.endsWith('.blob');
    fs.cpSync(path.join(dist, 'kernel'), bare, { recursive: true, filter: (f) => !isSnapshot(f) });
    expect(fs.readdirSync(path.join(dist, 'kernel')).some(isSnapshot)).toBe(true);
    expect(fs.readdirSync(bare).some(isSnapshot)).toBe(false);
    const cells = notebook(code('const n = 6'), code('n * 7'), code('const s: string = n'));
    const made = await run(cells, { program: path.join(bare, 'runner.cjs') });
    expect(made.failure).toMatchObject({ number: 3, error: { ename: 'TypeCheckError' } });

    // What the kernel of a package does 30 s after its start: the next start has the snapshot.
    const program = path.join(bare, 'types.cjs');
    const snapshot = path.join(bare, snapshotName(ROOT, program));
    expect(await makeSnapshot(program, snapshot)).toBe(true);
    expect(fs.readdirSync(bare).filter((file) => file.includes('.blob'))).toEqual([
      path.basename(snapshot),
    ]);
    const judge = ['--snapshot-blob', snapshot, ROOT];
    const asked = { id: 1, method: 'check', args: ['a', 'const n: string = 6'] };
    const { stdout } = spawnSync(process.execPath, judge, {
      input: `${JSON.stringify(asked)}\n`,
      encoding: 'utf8',
    });
    expect(stdout).toContain("not assignable to type 'string'");
    expect(await makeSnapshot(path.join(bare, 'nowhere.cjs'), snapshot)).toBe(false);
    expect(fs.existsSync(snapshot)).toBe(true);
  }, 400_000);

  test('a `declare global` of a cell holds for the cells after it, until it is declared anew', async () => {
    const last = 'Array.prototype.last = function () { return this[this.length - 1] };';
    const cells = [
      code(
        `const k = 3;\ndeclare global { interface Array<T> { last(): T } }\n${last} [1, 2].last() + k`,
      ),
      code('const z = [3, 4].last() + k; z'),
      code('const wrong: string = [1].last()'),
      code('declare global { interface Array<T> { last(): string } }'),
      code('const now: string = [1].last(); z'),
      code('declare global { var bad: Nowhere }'),
    ];
    const { notebook: made } = await run(notebook(...cells), { allowErrors: true });
    const shown = made.cells.map(({ outputs }) => JSON.stringify(outputs));
    expect(shown[0]).toContain('"5"');
    expect(shown[1]).toContain('"7"');
    expect(shown[2]).toContain("'number' is not assignable to type 'string'. (In[3]:1:7)");
    expect(shown[3]).toBe('[]');
    expect(shown[4]).toContain('"7"');
    expect(shown[5]).toContain("Cannot find name 'Nowhere'. (In[6]:1:27)");
  });

  test('stops at the cell that fails, unless its tag or an option says otherwise', async () => {
    const cells = [
      code('throw new Error("expected")', ['raises-exception']),
      code('nowhere'),
      code('1'),
    ];
    const stopped = await run(notebook(...cells));
    expect(stopped.failure).toMatchObject({ number: 2, error: { ename: 'TypeCheckError' } });
    expect(stopped.notebook.cells[2]?.outputs).toEqual([]);
    const whole = await run(notebook(...cells), { allowErrors: true });
    expect(whole.failure).toBeNull();
    expect(whole.notebook.cells[2]?.execution_count).toBe(3);
  });

  test('takes other values for its parameters', async () => {
    const cells = [code('let heightM = 2.6', ['parameters']), code('heightM * 2')];
    const { notebook: made } = await run(notebook(...cells), { parameters: { heightM: 4 } });
    expect(made.cells.map((c) => c.metadata.tags?.[0])).toEqual([
      'parameters',
      'injected-parameters',
      undefined,
    ]);
    expect(made.cells[2]?.outputs?.[0]).toMatchObject({ data: { 'text/plain': ['8'] } });
    await expect(run(notebook(), { parameters: { '2x': 1 } })).rejects.toThrow('“2x”');
  });

  test('a cell that takes too long or ends its process is an error of that cell', async () => {
    const slow = await run(notebook(code('await new Promise(() => {})')), { timeoutMs: 500 });
    expect(slow.failure?.error.evalue).toContain('did not end within 0.5 s');
    const dead = await run(notebook(code('process.exit(3)')));
    expect(dead.failure?.error).toMatchObject({
      ename: 'DeadKernel',
      evalue: expect.stringContaining('code 3'),
    });
  });

  test('says what is wrong with a file that is no notebook', async () => {
    await expect(runNotebook({ nbformat: 4 })).rejects.toThrow('is not a notebook');
    await expect(runNotebook({ nbformat: 3, cells: [] })).rejects.toThrow('notebook format 3');
  });
});
