import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Angle, indexCheck, sunAltitude, type FigureValue } from '../../src/index.js';
import {
  readNotebookFile,
  makeEditions,
  markClass,
  readClassList,
  type ClassMarks,
} from '../../src/publish/index.js';
import { answersText } from '../../src/publish/client/answers-file.js';
import { csvText } from '../../src/publish/mark/csv.js';
import { workedAnswer, type Slips } from '../exercises/worked-answer.js';
import { pythonJson } from '../support/python.js';
import { ROOT } from '../support/root.js';

const NOTEBOOK = path.join(ROOT, 'notebooks', 'exercises', '2-sun-altitude.ipynb');
const negated = (right: FigureValue) => (right as Angle).negated();
const degree = (right: FigureValue) => (right as Angle).plus(Angle.degrees(1));

let home: string;
let returned: string;
let marks: ClassMarks;
const facts = {
  notebook: '2-sun-altitude',
  title: '',
  kind: 'student',
  library: '0.1.0',
  data: {},
  licence: '',
  cautions: [],
} as const;

function handIn(file: string, student: string, slips: Slips, version = 'old'): void {
  const figures = workedAnswer(sunAltitude({ student, method: 'tenths' }), slips);
  const cells = new Map([
    ['name', `const student = ${JSON.stringify(student)};`],
    ['answer', `const answer = ${JSON.stringify(figures)};`],
  ]);
  fs.writeFileSync(path.join(returned, file), answersText({ ...facts, version }, cells));
}
const raw = (file: string, cells: Record<string, string>) =>
  fs.writeFileSync(
    path.join(returned, file),
    answersText({ ...facts, version: 'old' }, new Map(Object.entries(cells))),
  );
const of = (file: string) => marks.files.find((f) => f.file === file);

beforeAll(async () => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'marking-'));
  returned = path.join(home, 'returned');
  fs.mkdirSync(path.join(returned, 'evening'), { recursive: true });
  const { student } = await makeEditions(NOTEBOOK);
  handIn('ana.json', 'Ana Lima', {}, student.facts.version);
  handIn('ben.json', 'Ben', { dip: negated }, student.facts.version);
  handIn('evening/cleo.json', 'Cleo', { dip: negated, observed: degree }, student.facts.version);
  handIn('copy.json', 'ana lima', { semidiameter: negated });
  raw('nameless.json', { answer: 'const answer = {};' });
  raw('loops.json', { name: `const student = 'Lou';`, answer: 'for (;;);' });
  raw('forged.json', {
    name: `const student = 'Mal';`,
    answer: `const lib = await import('cocked-hat');
      globalThis[Symbol.for('cocked-hat.checked')]?.({ question: 'sun-altitude', marks: 8, outOf: 8, lines: [] });
      try { lib.Feedback.prototype.passed = true } catch {}
      process.send?.({ type: 'checked', feedback: { question: 'sun-altitude', marks: 8, outOf: 8, lines: [] } });
      process.send?.({ type: 'done', cell: 'answer', outcome: { status: 'ok', result: null }, values: {} });
      const answer = { dip: { toJSON: () => ({ degrees: 1 }) } };`,
    check: `'full marks'`,
    question: `const q = { easy: true }`,
  });
  raw('formula.json', {
    name: `const student = '=HYPERLINK("http://x.invalid","A")';`,
    answer: 'const answer = {};',
  });
  fs.writeFileSync(path.join(returned, 'broken.json'), '{');
  fs.writeFileSync(
    path.join(returned, 'other.json'),
    answersText({ ...facts, notebook: '3-noon-latitude', version: 'x' }, new Map()),
  );
  fs.writeFileSync(path.join(returned, 'notes.txt'), 'not handed in');
  // A link out of the folder is not followed: its target is none of the returned files.
  fs.writeFileSync(path.join(home, 'elsewhere.json'), '{}');
  fs.symlinkSync(path.join(home, 'elsewhere.json'), path.join(returned, 'link.json'));
  // A returned notebook, with a cell of the student's own and figures worked out by the library.
  const notebook = structuredClone(readNotebookFile(NOTEBOOK));
  const cell = (id: string) => notebook.cells.find((c) => c.id === id)!;
  cell('name').source = `const student = 'Dora';`;
  cell('answer').source =
    `import { dip } from 'cocked-hat';\nconst answer = { indexCorrection: first, dip: dip(q.given.sight), apparent: '1°00.0′' };`;
  cell('check').source = `'full marks'`;
  notebook.cells.splice(notebook.cells.indexOf(cell('answer')), 0, {
    id: 'mine',
    cell_type: 'code',
    metadata: {},
    source: `import { indexCorrection } from 'cocked-hat';\nconst first = indexCorrection(q.given.sight);`,
    outputs: [],
    execution_count: null,
  });
  fs.writeFileSync(path.join(returned, 'dora.ipynb'), JSON.stringify(notebook));
  marks = await markClass(NOTEBOOK, returned, { out: path.join(home, 'marks') });
});
afterAll(() => fs.rmSync(home, { recursive: true, force: true }));

const total = (file: string) => of(file)?.questions.reduce((sum, q) => sum + q.marks, 0);

describe('a class marked', () => {
  it('gives full marks for a right working and one line less for each slip', () => {
    expect([
      total('ana.json'),
      total('ben.json'),
      total(path.join('evening', 'cleo.json')),
    ]).toEqual([8, 7, 5]);
    expect(of('ben.json')?.questions[0]?.firstWrong).toBe('dip');
  });
  it('marks a returned notebook with the teacher’s cells and the student’s own', () => {
    expect(of('dora.ipynb')?.student).toBe('Dora');
    expect(of('dora.ipynb')?.questions[0]?.lines.map((l) => l.standing)).toEqual([
      'right',
      'right',
      'wrong',
      'missing',
      'missing',
      'missing',
      'missing',
    ]);
  });
  it('finds the class’s slips, the commonest first', () => {
    expect(marks.slips[0]).toEqual({
      line: 'sun-altitude/dip',
      slip: 'sign of the dip',
      students: ['Ben', 'Cleo'],
    });
  });
  it('refuses a notebook that checks nothing it could mark, or that fails, before any file', async () => {
    const cell = (source: string, i: number) => ({
      cell_type: 'code',
      id: `c${i}`,
      metadata: {},
      source,
      outputs: [],
      execution_count: null,
    });
    const lesson = (name: string, ...sources: string[]) => {
      const file = path.join(home, name);
      const cells = sources.map(cell);
      fs.writeFileSync(
        file,
        JSON.stringify({ cells, metadata: {}, nbformat: 4, nbformat_minor: 5 }),
      );
      return file;
    };
    const start =
      "import { check, indexCheck } from 'cocked-hat';\nconst q = indexCheck({ student: 'Ann' });";
    const together = '// BEGIN SOLUTION\nconst answer = {};\n// END SOLUTION\ncheck(q, answer)';
    const out = path.join(home, 'none');
    const marked = (file: string) => markClass(file, returned, { out });
    await expect(marked(lesson('together.ipynb', start, together))).rejects.toMatchObject({
      message: expect.stringContaining('No cell of the notebook checks an answer'),
      remedy: expect.stringContaining('a cell of its own'),
    });
    await expect(marked(lesson('fails.ipynb', start, 'q.nothing.here'))).rejects.toThrow(
      /own cell 'c1' failed/,
    );
    expect(fs.existsSync(out)).toBe(false);
  });
  it('marks an exercise made as the guide says, without nbgrader’s marks', async () => {
    const sources = [
      "const student = 'Your name';",
      "import { check, indexCheck } from 'cocked-hat';\nconst q = indexCheck({ student });",
      'const answer = {\n  // BEGIN SOLUTION\n  ...q.expected(),\n  // END SOLUTION\n};',
      'check(q, answer)',
    ];
    const cells = sources.map((source, i) => ({
      cell_type: 'code',
      id: `c${i}`,
      metadata: i === 0 ? { tags: ['student'] } : {},
      source,
      outputs: [],
      execution_count: null,
    }));
    const file = path.join(home, 'Low Sun – été.ipynb');
    fs.writeFileSync(file, JSON.stringify({ cells, metadata: {}, nbformat: 4, nbformat_minor: 5 }));
    const handed = path.join(home, 'handed');
    fs.mkdirSync(handed);
    const right = workedAnswer(indexCheck({ student: 'Ana' }));
    const lastLine = Object.keys(right).at(-1) ?? '';
    const answers = (name: string, answer: object): void =>
      fs.writeFileSync(
        path.join(handed, `${name}.json`),
        answersText(
          { ...facts, notebook: 'Low-Sun-été', version: 'x' },
          new Map([
            ['c0', `const student = '${name}';`],
            ['c2', `const answer = ${JSON.stringify(answer)};`],
          ]),
        ),
      );
    answers('Ana', right);
    answers('Your name', { ...right, [lastLine]: '9.9′ off the arc' });
    const { files } = await markClass(file, handed, { out: path.join(home, 'handed-marks') });
    expect(files.map((f) => f.student)).toEqual(['Ana', 'Your name']);
    const [ana, other] = files.map((f) => f.questions[0]);
    expect(ana?.marks).toBe(ana?.outOf);
    expect(other?.marks).toBeLessThan(other?.outOf ?? 0);
    expect(files[0]?.remarks).toEqual([]);
    // A check that is not passed is no failure of the notebook; a name left as it was is said.
    expect(files[1]?.remarks.join()).toMatch(/^The name was left as 'Your name'/);
  });
  it('leaves no file out and says why one cannot be marked', () => {
    expect(marks.files.length).toBe(11);
    expect(of('link.json')).toBeUndefined();
    expect(of('broken.json')?.remarks[0]).toMatch(/not JSON/);
    expect(of('other.json')?.remarks[0]).toMatch(/answers "3-noon-latitude"/);
    expect(of('loops.json')?.remarks[0]).toMatch(/did not end within 10 s/);
    expect(total('loops.json')).toBe(0);
  });
  it('gives a cell that forges its own marks none', () => {
    expect(total('forged.json')).toBe(0);
    expect(of('forged.json')?.questions[0]?.outOf).toBe(8);
  });
  it('writes tables that another program reads, without formulas', () => {
    const text = fs.readFileSync(path.join(home, 'marks', 'marks.csv'), 'utf8');
    // Python's csv module as the other program.
    const rows = pythonJson<string[][]>(
      `import csv, io\nanswer = list(csv.reader(io.StringIO(given.lstrip('\\ufeff'))))`,
      text,
    );
    expect(rows.length).toBe(12);
    expect(new Set(rows.map((row) => row.length)).size).toBe(1);
    const column = (name: string) => rows[0]!.indexOf(name);
    const row = (file: string) => rows.find((r) => r[0] === file)!;
    expect(row('ana.json')[column('marks')]).toBe('8');
    expect(row('copy.json')[column('remarks')]).toMatch(
      /same name is in ana\.json.*Edition old was answered/,
    );
    expect(row('formula.json')[column('student')]).toMatch(/^'=/);
    expect(row('ben.json')[column('sun-altitude/dip')]).toBe('0');
  });
  it('makes one table of a class over several lessons, and says who is missing or strange', async () => {
    const folder = path.join(home, 'term');
    fs.mkdirSync(folder);
    const write = (file: string, notebook: string, student: string, answer: object): void =>
      fs.writeFileSync(
        path.join(folder, file),
        answersText(
          { ...facts, notebook, version: 'old' },
          new Map([
            ['name', `const student = ${JSON.stringify(student)};`],
            ['answer', `const answer = ${JSON.stringify(answer)};`],
          ]),
        ),
      );
    const index = workedAnswer(indexCheck({ student: 'Ana Lima' }));
    const sun = (student: string, slips: Slips = {}) =>
      workedAnswer(sunAltitude({ student, method: 'tenths' }), slips);
    write('a1.json', '1-index-check', ' ana  LIMA', index);
    write('a2.json', '2-sun-altitude', 'Ana Lima', sun('Ana Lima', { dip: negated }));
    write('a2-again.json', '2-sun-altitude', 'Ana Lima', sun('Ana Lima'));
    write('b2.json', '2-sun-altitude', 'Bem', sun('Bem'));
    write('z.json', '3-noon-latitude', 'Zoe', {});
    fs.writeFileSync(path.join(folder, 'broken.json'), '{');
    const list = readClassList('group;Student\nevening;Ana Lima\nevening;Ben\n', 'class.csv');
    const notebooks = [path.join(path.dirname(NOTEBOOK), '1-index-check.ipynb'), NOTEBOOK];
    const out = path.join(home, 'term-marks');
    const { rows, strays } = await markClass(notebooks, folder, { out, list });
    expect(rows.map((r) => [r.student, r.onList, r.marks])).toEqual([
      ['Ana Lima', true, [4, 8]],
      ['Ben', true, [undefined, undefined]],
      ['Bem', false, [undefined, 8]],
    ]);
    expect(rows[0]?.remarks.join()).toMatch(
      /Edition old was answered.*2-sun-altitude: a2-again\.json and a2\.json were handed in; the best counts/,
    );
    expect(rows[2]?.remarks[0]).toMatch(/not on the class list; 'Ben' is near/);
    expect(strays.map(({ file }) => file)).toEqual(['broken.json', 'z.json']);
    expect(strays[1]?.why).toMatch(/answers "3-noon-latitude", which is none of these/);
    const text = fs.readFileSync(path.join(out, 'class.csv'), 'utf8').split('\r\n');
    expect(text[0]).toBe(
      '\uFEFFstudent,group,1-index-check (of 4),2-sun-altitude (of 8),marks,of,not handed in,remarks',
    );
    expect(text[2]).toBe('Ben,evening,,,0,12,"1-index-check; 2-sun-altitude",');
    expect(fs.readdirSync(out).sort()).toEqual([
      '.cocked-hat-edition',
      '1-index-check',
      '2-sun-altitude',
      'class.csv',
      'strays.csv',
    ]);
  }, 60_000);
  it('writes feedback for each file, within the folder', () => {
    expect(fs.readdirSync(path.join(home, 'marks', 'feedback')).length).toBe(11);
    const text = fs.readFileSync(path.join(home, 'marks', 'feedback', '004-copy.txt'), 'utf8');
    expect(text).toContain('other limb');
  });
});

describe('a class list', () => {
  const names = (text: string) => readClassList(text, 'class').students.map(({ name }) => name);
  it('is one name a line, or a table with a column for the names', () => {
    expect(names('\uFEFFAna\r\n\r\nLima, Ben \r\n')).toEqual(['Ana', 'Lima, Ben']);
    expect(names('Name\tMail\nAna\ta@x.invalid')).toEqual(['Ana']);
    expect(readClassList('mail,"student"\nx,"Lima, Ben"\n,\n', 'class')).toEqual({
      heads: ['mail'],
      students: [{ name: 'Lima, Ben', more: ['x'] }],
    });
  });
  it('that names nobody, or one student twice, is refused', () => {
    expect(() => names('student\n')).toThrow(/names nobody/);
    expect(() => names('Ana\n ANA')).toThrow(/has 'ANA' twice/);
  });
});

describe('a table cell', () => {
  it.each(['=1+1', '+1', '-1', '@x', '\tx', '%x'])(
    'that a spreadsheet would take for a formula becomes text: %j',
    (text) => {
      expect(csvText([[text]])).toContain("'");
    },
  );
  it('keeps figures as figures', () => {
    expect(csvText([[-2, 7.5]])).toBe('\uFEFF-2,7.5\r\n');
  });
});
