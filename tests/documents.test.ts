/**
 * Every code sample of the documents and of the docstrings works and shows what stands under it.
 * `UPDATE_SAMPLES=1 npx vitest run tests/documents.test.ts` writes anew what is shown, where no `…` leaves lines out.
 */
import fs from 'node:fs';
import path from 'node:path';
import * as library from 'cocked-hat';
import { beforeAll, describe, expect, it } from 'vitest';
import { ROOT } from '../src/cli/bootstrap/paths.mjs';
import { COMMANDS } from '../src/cli/commands/index.js';
import { parseGiven } from '../src/cli/parse.js';
import { runNotebook, type Output } from '../src/kernel/index.js';
import { examples, isShown, samples, shellLines, words, type Sample } from './support/samples.js';

const UPDATE = process.env['UPDATE_SAMPLES'] === '1';
/** Longest time for one sample on a busy machine; the slowest takes a few seconds. */
const SAMPLE_MS = 120_000;

const inRoot = (file: string) => path.join(ROOT, file);
const read = (file: string) => fs.readFileSync(inRoot(file), 'utf8');
const guide = fs.readdirSync(inRoot('src/guide')).filter((file) => file.endsWith('.md'));
const DOCUMENTS = ['README.md', 'DEVELOPERS.md', ...guide.map((file) => `src/guide/${file}`)];

function sourcesWithExamples(folder = inRoot('src')): string[] {
  return fs
    .readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => path.join(folder, file))
    .filter((file) => fs.readFileSync(file, 'utf8').includes('@example'));
}

const joined = (text: unknown) => (Array.isArray(text) ? text.join('') : String(text ?? ''));
function printed(outputs: readonly Output[]): string {
  const text = outputs.map((output) => {
    if (output.output_type === 'stream') return joined(output.text);
    if (output.output_type === 'error') return `${output.ename}: ${output.evalue}`;
    return `${joined(output.data['text/plain'])}\n`;
  });
  return text.join('');
}

/**
 * Runs samples one after another as a reader would, in a notebook in notebooks/. All documents share one session, because
 * starting the check of types takes longer than the samples; that each imports what it uses is tested apart.
 */
async function outputsOf(run: readonly Sample[]): Promise<Output[][]> {
  const cells = run.map(({ code }) => ({ cell_type: 'code', source: code, metadata: {} }));
  const source = { nbformat: 4, nbformat_minor: 5, metadata: {}, cells };
  const options = { cwd: inRoot('notebooks'), timeoutMs: SAMPLE_MS, allowErrors: true };
  const { notebook } = await runNotebook(source, options);
  return notebook.cells.map(({ outputs }) => outputs ?? []);
}

function update(file: string, run: readonly Sample[], now: readonly string[]): void {
  const lines = read(file).split('\n');
  const changes = run.map((sample, i) => ({ shown: sample.shown, text: now[i] as string }));
  for (const { shown, text } of changes.reverse()) {
    if (!shown || /^…$/m.test(shown.text)) continue;
    const fresh = text
      .trim()
      .split('\n')
      .map((line) => line.trimEnd());
    lines.splice(shown.line - 1, shown.length, ...fresh);
  }
  fs.writeFileSync(inRoot(file), lines.join('\n'));
}

function check(run: readonly Sample[], file: string): void {
  const outputs = shown.get(file) ?? [];
  expect(outputs.length).toBe(run.length);
  outputs.flat().forEach((output) => {
    if (output.output_type === 'error') throw new Error(output.traceback.join('\n'));
  });
  const now = outputs.map(printed);
  if (UPDATE && file !== DOCSTRINGS) return update(file, run, now);
  run.forEach(({ shown, line }, i) => {
    if (shown && !isShown(shown.text, now[i] as string))
      expect(`line ${line}:\n${now[i]}`).toBe(`line ${line}:\n${shown.text}`);
  });
}

/** Names of the library that a document uses but does not import. */
function notImported(run: readonly Sample[]): string[] {
  const code = run.map((sample) => sample.code).join('\n');
  const plain = code.replace(/\/\/.*|'[^']*'|`[^`]*`/g, '');
  const imported = [...plain.matchAll(/import \{([^}]*)\}/g)].flatMap((m) =>
    (m[1] as string).split(',').map((name) => name.trim().split(' ')[0]),
  );
  const declared = [...plain.matchAll(/(?:const|let|function) (\w+)/g)].map((m) => m[1]);
  const destructured = [...plain.matchAll(/[{[]([\w, ]+)[}\]]/g)].flatMap((m) =>
    (m[1] as string).split(',').map((name) => name.trim()),
  );
  const used = new Set([...plain.matchAll(/(?<![.\w])[A-Za-z]\w*(?!\w|\s*:)/g)].map((m) => m[0]));
  const known = new Set([...imported, ...declared, ...destructured]);
  return [...used].filter((name) => name in library && !known.has(name));
}

const pages = DOCUMENTS.map((file) => ({ file, ...samples(read(file)) }));
const examplesOfCode = sourcesWithExamples().flatMap((file) =>
  examples(fs.readFileSync(file, 'utf8')),
);
const DOCSTRINGS = 'docstrings';
/** What each document shows, sample by sample. */
const shown = new Map<string, Output[][]>();

beforeAll(async () => {
  const jobs = [...pages, { file: DOCSTRINGS, run: examplesOfCode }];
  const all = await outputsOf(jobs.flatMap(({ run }) => run));
  for (const { file, run } of jobs) shown.set(file, all.splice(0, run.length));
}, 600_000);

describe.each(pages)('$file', ({ file, run, notRun }) => {
  it.runIf(run.length > 0)('shows what its samples give', () => check(run, file));

  it('imports what its samples use', () => {
    expect(notImported(run)).toEqual([]);
  });

  it('says why a sample is not run', () => {
    for (const { line, reason } of notRun) expect(reason, `line ${line}`).toMatch(/\w+ \w+/);
  });

  it('gives commands that are understood', () => {
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    for (const { text, line } of shellLines(read(file))) {
      const [program, ...rest] = words(text.replace(/^npx /, ''));
      const where = `line ${line}: ${text}`;
      if (program === 'cocked-hat') {
        const command = COMMANDS.find(({ name }) => name === rest[0]);
        if (!rest[0]?.startsWith('-')) expect(command, where).toBeDefined();
        if (command) parseGiven(command, rest.slice(1));
      } else if (program === 'npm' && ['start', 'test', 'run'].includes(rest[0] as string)) {
        const script = rest[0] === 'run' ? (rest[1] as string) : (rest[0] as string);
        expect(Object.keys(scripts), where).toContain(script);
      }
    }
  });

  it('links to files that are there', () => {
    const text = read(file).replace(/^```[\s\S]*?^```$/gm, '');
    for (const [, target] of text.matchAll(/\]\(([^)#\s]+)[^)]*\)/g)) {
      if (/^(https?:|mailto:)/.test(target as string)) continue;
      if (target === 'api/index.html') continue; // made by npm run guide
      const there = fs.existsSync(path.join(path.dirname(inRoot(file)), target as string));
      expect(there, `${file} links to ${target}`).toBe(true);
    }
  });
});

describe(DOCSTRINGS, () => {
  it('have examples that work', () => {
    expect(examplesOfCode.length).toBeGreaterThan(0);
    check(examplesOfCode, DOCSTRINGS);
  });
});
