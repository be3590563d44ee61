/**
 * The real nbgrader (PyPI, version in requirements.txt) on one of our exercises: release, return, mark; and the marks beside those of
 * `cocked-hat mark` for the same returned notebooks.
 */
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { DIST, ROOT } from '../../src/cli/bootstrap/paths.mjs';
import { environment, fromGuide, program } from './class-env.mjs';

const NOTEBOOK = '2-sun-altitude.ipynb';
const SOURCE = path.join(ROOT, 'notebooks', 'exercises', NOTEBOOK);
/** Students, what they hand in, and their marks of 8 (the last line counts two). */
const CLASS = {
  ana: { marks: 8, answer: (right) => JSON.stringify(right) },
  ben: {
    marks: 7,
    answer: ({ dip, ...right }) => JSON.stringify({ ...right, dip: dip.replace('−', '+') }),
  },
  cleo: { marks: 0, answer: () => '{}' },
  dora: { marks: 0, answer: () => `(() => { throw new Error('not finished'); })()` },
};

const textOf = (source) => (Array.isArray(source) ? source.join('') : source);
const read = (file) => JSON.parse(fs.readFileSync(file, 'utf8'));

/** The lines of a right answer, as a student writes them. */
async function rightAnswer(student) {
  const { sunAltitude, quantities } = await import(path.join(DIST, 'index.js'));
  const q = sunAltitude({ student, method: 'tenths' });
  return Object.fromEntries(
    [...q.expected()].map(([id, value]) => [id, quantities[q.line(id).quantity].print(value)]),
  );
}

export async function runNbgrader() {
  const home = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-nbgrader-'));
  const course = path.join(home, 'course');
  const at = (...parts) => path.join(course, ...parts);
  const grader = (...words) =>
    execFileSync(program('nbgrader'), words, {
      cwd: course,
      env: environment(home),
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
    });
  try {
    fs.mkdirSync(at('source', 'altitude'), { recursive: true });
    fs.writeFileSync(at('nbgrader_config.py'), fromGuide('publishing.md', 'import os'));
    fs.copyFileSync(SOURCE, at('source', 'altitude', NOTEBOOK));
    grader('generate_assignment', 'altitude');

    const released = read(at('release', 'altitude', NOTEBOOK));
    const shown = released.cells.map(({ source }) => textOf(source)).join('\n');
    assert.match(shown, /Write your lines here/);
    assert.doesNotMatch(shown, /observedAltitude|SOLUTION|NotImplemented/);
    assert.ok(released.cells.every(({ outputs = [] }) => outputs.length === 0));

    for (const [student, { answer }] of Object.entries(CLASS)) {
      const returned = structuredClone(released);
      const cell = (id) =>
        returned.cells.find((c) => c.id === id || c.metadata.nbgrader?.grade_id === id);
      cell('name').source = `const student = '${student}';`;
      cell('answer').source =
        `const answer: Record<string, unknown> = ${answer(await rightAnswer(student))};`;
      // What the student did to a locked cell does not count.
      cell('check').source = '8';
      fs.mkdirSync(at('submitted', student, 'altitude'), { recursive: true });
      fs.writeFileSync(at('submitted', student, 'altitude', NOTEBOOK), JSON.stringify(returned));
    }
    grader('autograde', 'altitude', '--create');
    grader('generate_feedback', 'altitude');
    grader('export', '--to', 'grades.csv');
    const [head, ...rows] = fs
      .readFileSync(at('grades.csv'), 'utf8')
      .trim()
      .split(/\r?\n/)
      .map((l) => l.split(','));
    const column = (name) => head.indexOf(name);
    const marks = Object.fromEntries(
      rows.map((r) => [r[column('student_id')], Number(r[column('score')])]),
    );
    assert.deepEqual(
      marks,
      Object.fromEntries(Object.entries(CLASS).map(([s, { marks: m }]) => [s, m])),
    );
    assert.ok(rows.every((r) => Number(r[column('max_score')]) === 8));
    const feedback = fs.readFileSync(
      at('feedback', 'ben', 'altitude', NOTEBOOK.replace('.ipynb', '.html')),
      'utf8',
    );
    assert.match(feedback, /working first goes wrong at/);

    // The same returned notebooks, marked by our own command.
    const cli = [
      path.join(DIST, 'cli.js'),
      'mark',
      SOURCE,
      at('submitted'),
      '-o',
      path.join(home, 'marks'),
    ];
    execFileSync(process.execPath, cli, { encoding: 'utf8' });
    const own = fs.readFileSync(path.join(home, 'marks', 'marks.csv'), 'utf8');
    for (const [student, { marks: m }] of Object.entries(CLASS))
      assert.match(own, new RegExp(`,${student},[^,]*,${m},8,`), `marks of ${student} in\n${own}`);
    return Object.entries(marks)
      .map(([s, m]) => `${s} ${m} of 8`)
      .join(', ');
  } finally {
    fs.rmSync(home, { recursive: true, force: true });
  }
}
