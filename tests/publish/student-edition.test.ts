import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Cell, Notebook } from '../../src/kernel/runner/notebook.js';
import { textOf } from '../../src/kernel/runner/notebook.js';
import {
  roleOf,
  splitSolution,
  studentEdition,
  teacherEdition,
} from '../../src/publish/source/index.js';
import { ROOT } from '../support/root.js';

const code = (source: string, metadata: Cell['metadata'] = {}, id = 'c'): Cell => ({
  id,
  cell_type: 'code',
  source,
  metadata,
  execution_count: 3,
  outputs: [{ output_type: 'stream', name: 'stdout', text: 'kept from the teacher' }],
});
const notebook = (...cells: Cell[]): Notebook => ({
  nbformat: 4,
  nbformat_minor: 5,
  metadata: { author: 'secret', cocked_hat: { licence: 'MIT' } },
  cells,
});
const grader = (o: object) => ({ nbgrader: { schema_version: 3, grade_id: 'x', ...o } });

describe('solution marks', () => {
  it('take out what stands between them and leave the rest on its lines', () => {
    const { shown, solution } = splitSolution('a\n  // BEGIN SOLUTION\n  b\n  // END SOLUTION\nc');
    expect(shown).toBe('a\n  // Write your lines here.\nc');
    expect(solution).toEqual(['  b']);
  });
  it('leave the names of the lines, to be filled in', () => {
    const lines = [
      '{',
      '  // BEGIN SOLUTION',
      "  dip: '−2.8′',",
      "  'ho 2': f({",
      '    a: 1 }),',
      '  ...more,',
    ];
    expect(splitSolution([...lines, '  // END SOLUTION', '}'].join('\n')).shown).toBe(
      "{\n  // Write your lines here.\n  dip: '',\n  'ho 2': '',\n}",
    );
  });
  it('take out hidden tests without leaving a line', () => {
    expect(splitSolution('a\n// BEGIN HIDDEN TESTS\nb\n// END HIDDEN TESTS').shown).toBe('a');
  });
  it.each([
    ['// BEGIN SOLUTION\na', /line 1: BEGIN SOLUTION has no END/],
    ['a\n// END SOLUTION', /line 2: END SOLUTION without/],
    ['a\n// BEGIN SOLUTIONS', /line 2: '\/\/ BEGIN SOLUTIONS' is no mark/],
    ['# begin the solution', /is no mark/],
    ['  // End Solution', /is no mark/],
    ['// BEGIN SOLUTION\n// BEGIN SOLUTION', /line 2: BEGIN SOLUTION inside/],
  ])('that do not pair are refused: %j', (source, message) => {
    expect(() => splitSolution(source)).toThrow(message);
  });
});

describe('a student edition', () => {
  it('has no outputs, no counts, no private metadata', () => {
    const { notebook: student } = studentEdition(
      notebook(code('1 + 1', { private: 'note', tags: ['student'] })),
    );
    expect(JSON.stringify(student)).not.toMatch(/secret|note|kept from the teacher/);
    expect(student.cells[0]).toMatchObject({
      execution_count: null,
      outputs: [],
      metadata: { tags: ['student'] },
    });
  });
  it('loses cells tagged teacher and solution cells without marks', () => {
    const { notebook: student, removed } = studentEdition(
      notebook(
        code('const key = 42', { tags: ['teacher'] }, 'a'),
        code('const answer = 43', grader({ solution: true }), 'b'),
      ),
    );
    expect(JSON.stringify(student)).not.toMatch(/42|43/);
    expect(removed).toEqual(['const key = 42', 'const answer = 43']);
  });
  it('knows its answer when the solution marks are gone, keeps what is collapsed, drops empty cells', () => {
    const source = notebook(
      code('const answer = {\n  // BEGIN SOLUTION\n  dip: 1,\n  // END SOLUTION\n};', {}, 'a'),
      code('const q = 1;', { jupyter: { source_hidden: true } }, 'b'),
      code(' \n', {}, 'c'),
    );
    const { cells } = studentEdition(source).notebook;
    expect(cells.map((cell) => [cell.id, roleOf(cell)])).toEqual([
      ['a', 'answer'],
      ['b', 'free'],
    ]);
    expect(cells[1]?.metadata).toEqual({ jupyter: { source_hidden: true } });
    expect(teacherEdition(source).cells.map((cell) => cell.id)).toEqual(['a', 'b']);
  });
  it('names the cell where marks do not pair', () => {
    expect(() => studentEdition(notebook(code('a'), code('// BEGIN SOLUTION')))).toThrow(
      /cell 2, line 1/,
    );
  });
  it('keeps what nbgrader needs', () => {
    const { notebook: student } = studentEdition(
      notebook(code('check(q)', grader({ grade: true, points: 3, locked: true }))),
    );
    expect(student.cells[0]?.metadata['nbgrader']).toEqual({
      schema_version: 3,
      grade_id: 'x',
      grade: true,
      solution: false,
      locked: true,
      points: 3,
    });
    expect(student.cells[0]?.id).toBe('x');
  });
  it('tells what each cell is for', () => {
    expect(roleOf(code('x', grader({ solution: true })))).toBe('answer');
    expect(roleOf(code('x', grader({ grade: true })))).toBe('check');
    expect(roleOf(code('x', grader({ locked: true })))).toBe('given');
    expect(roleOf(code('x', { tags: ['student'] }))).toBe('name');
    expect(roleOf(code('x'))).toBe('free');
  });
  it('of each exercise on board shares all but the solution with the teacher’s', () => {
    const folder = path.join(ROOT, 'notebooks', 'exercises');
    const files = fs.readdirSync(folder).filter((f) => f.endsWith('.ipynb'));
    expect(files.length).toBe(6);
    for (const file of files) {
      const source = JSON.parse(fs.readFileSync(path.join(folder, file), 'utf8')) as Notebook;
      const { notebook: student, removed } = studentEdition(source);
      expect(student.cells.length).toBe(teacherEdition(source).cells.length);
      expect(removed.length).toBeGreaterThan(5);
      const shown = student.cells.map((c) => textOf(c.source)).join('\n');
      expect(shown).not.toContain('SOLUTION');
    }
  });
});
