/** The command `run` with real cells (the kernel must have been built). */
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ROOT } from '../../src/cli/bootstrap/paths.mjs';
import { descendants, isAlive } from '../../src/cli/bootstrap/process-tree.mjs';
import { runCommandLine } from '../../src/cli/cli.js';
import { COMMANDS } from '../../src/cli/commands/index.js';
import { readNotebook } from '../../src/cli/notebooks/index.js';
import { recordedTerminal } from './recorded-terminal.js';

let folder: string;
const at = (name: string) => path.join(folder, name);

beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'run-'));
});
afterEach(() => fs.rmSync(folder, { recursive: true }));

function writeCells(name: string, ...sources: string[]) {
  const cells = sources.map((source, index) => ({
    id: `c${index}`,
    cell_type: 'code',
    metadata: index === 0 ? { tags: ['parameters'] } : {},
    source,
    outputs: [],
    execution_count: null,
  }));
  const notebook = { cells, metadata: {}, nbformat: 4, nbformat_minor: 5 };
  fs.writeFileSync(at(name), JSON.stringify(notebook));
  return at(name);
}

async function run(...args: string[]) {
  const recorded = recordedTerminal();
  const code = await runCommandLine(['run', ...args], COMMANDS, recorded.terminal);
  return { code, output: recorded.output(), errors: recorded.errors() };
}

const textsOf = (file: string) =>
  readNotebook(file).cells.map((cell) => JSON.stringify(cell.outputs));

describe('run', () => {
  it('writes nothing unless asked, and tells that every cell ran', async () => {
    const file = writeCells('good.ipynb', 'let seed = 1', 'seed + 1');
    const before = fs.readFileSync(file, 'utf8');
    const { code, output } = await run(file);
    expect(code).toBe(0);
    expect(output).toMatch(/good\.ipynb: 2 cells, [\d.]+ s$/);
    expect(fs.readFileSync(file, 'utf8')).toBe(before);
    expect(fs.readdirSync(folder)).toEqual(['good.ipynb']);
  });

  it('sets parameters and writes the executed copy', async () => {
    const file = writeCells('good.ipynb', 'let seed = 1', 'seed + 1');
    const { code } = await run(file, '--set', 'seed=41', '-o', at('out/'));
    expect(code).toBe(0);
    expect(textsOf(at('out/good.ipynb')).at(-1)).toContain('"42"');
  });

  it('replaces the parameters of an earlier run, and names the known ones for a slip', async () => {
    const file = writeCells('good.ipynb', 'let seed = 1, heightM = 2', 'seed + heightM');
    await run(file, '--set', 'seed=41', '--in-place');
    await run(file, '--set', 'seed=7', '--set', 'heightM=3', '--in-place');
    expect(textsOf(file)).toHaveLength(3);
    expect(textsOf(file).at(-1)).toContain('"10"');
    const before = fs.readFileSync(file, 'utf8');
    const slip = await run(file, '--set', 'sed=7', '--in-place');
    expect(slip.code).toBe(2);
    expect(slip.errors).toContain(
      'has no parameter sed; its cell tagged "parameters" sets seed, heightM',
    );
    expect(fs.readFileSync(file, 'utf8')).toBe(before);
  });

  it('leaves a file byte for byte when a second run in place changes nothing', async () => {
    const view = `({
      [Symbol.for('Jupyter.display')]: () => ({ 'application/json': { viewId: crypto.randomUUID() } }),
    })`;
    const file = writeCells('good.ipynb', 'let seed = 1', 'console.log(seed)', view);
    await run(file, '--in-place');
    expect(textsOf(file).at(-1)).toMatch(/"viewId":"[0-9a-f-]{36}"/);
    const before = fs.readFileSync(file, 'utf8');
    await run(file, '--in-place');
    expect(fs.readFileSync(file, 'utf8')).toBe(before);
    await run(file, '--set', 'seed=2', '--in-place');
    expect(textsOf(file)[2]).toContain('2\\n');
    expect(fs.readFileSync(file, 'utf8')).not.toBe(before);
  });

  it('shows a failing cell in cell lines, ends with code 1, and still writes what ran', async () => {
    const bad = writeCells('bad.ipynb', '1 + 1', '\nlet n: string = 2', '3');
    const good = writeCells('good.ipynb', '1');
    const { code, output, errors } = await run(bad, good, '--in-place');
    expect(code).toBe(1);
    expect(errors).toContain('bad.ipynb: code cell 2 failed');
    expect(errors).toContain("Type 'number' is not assignable to type 'string'");
    expect(output).toContain('2 notebooks, 1 failed');
    expect(textsOf(bad)[0]).toContain('"2"');
    expect(textsOf(bad)[1]).toContain('TypeCheckError');
    expect(textsOf(bad)[2]).toBe('[]');
  });

  it('goes on after a failure when asked', async () => {
    const file = writeCells('bad.ipynb', 'throw new RangeError("no")', '6 * 7');
    expect((await run(file, '--allow-errors', '--in-place')).code).toBe(0);
    expect(textsOf(file)[1]).toContain('"42"');
  });

  it('ends a cell that takes too long', async () => {
    const file = writeCells('long.ipynb', 'for (;;) {}');
    const { code, errors } = await run(file, '--timeout', '2');
    expect(code).toBe(1);
    expect(errors).toContain('did not end within 2 s');
  });

  it('asks for a notebook when none is named', async () => {
    const { code, errors } = await run();
    expect(code).toBe(2);
    expect(errors).toContain('run needs at least one notebook');
  });
});

it('leaves no process behind when it is stopped while a cell loops', async () => {
  const file = writeCells(
    'loop.ipynb',
    'import fs from "node:fs"; fs.writeFileSync("up", ""); for (;;) {}',
  );
  const program = path.join(ROOT, 'dist', 'cli.js');
  const child = spawn(process.execPath, [program, 'run', file], { stdio: 'ignore' });
  const ended = new Promise((resolve) => child.once('exit', resolve));
  const up = path.join(path.dirname(file), 'up');
  await expect.poll(() => fs.existsSync(up), { timeout: 60_000 }).toBe(true);
  const family = descendants(child.pid!);
  expect(family.length).toBeGreaterThan(0);
  child.kill('SIGTERM');
  expect(await ended).toBe(130);
  await expect.poll(() => family.filter(isAlive)).toEqual([]);
});
