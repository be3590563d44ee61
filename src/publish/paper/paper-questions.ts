import { textOf, type Notebook } from '../../kernel/runner/notebook.js';
import { PublishError } from '../publish-error.js';
import { Sandbox } from '../sandbox/index.js';
import {
  readExpected,
  roleOf,
  EXPECTED_FIGURES_CELL,
  type ExpectedFigures,
} from '../source/index.js';

/** One line of a question as paper needs it; `expected` goes on answer pages only. */
export interface PaperLine {
  readonly id: string;
  readonly title: string;
  readonly quantity: string;
  readonly form: string;
  readonly formula: string;
  readonly within: string;
  readonly marks: number;
  readonly choices: readonly string[];
  readonly expected: string;
}

/** A question with one student's numbers. */
export interface PaperQuestion {
  readonly id: string;
  readonly title: string;
  readonly task: string;
  readonly printed: readonly (readonly [string, string])[];
  readonly table?: {
    readonly caption: string;
    readonly head: readonly string[];
    readonly rows: readonly (readonly string[])[];
  };
  readonly lines: readonly PaperLine[];
  readonly cautions: readonly string[];
  readonly code?: string;
  /** Where a plotting sheet is wanted: the DR, degrees, north and east positive. */
  readonly plotAt?: { readonly latDeg: number; readonly lonDeg: number };
}

export interface StudentPaper {
  readonly student: string;
  readonly questions: readonly PaperQuestion[];
  readonly expected: ExpectedFigures;
}

const RUN = { name: true, given: true, free: true };

const QUESTIONS_CELL = `
const { Question, quantities } = await import('cocked-hat');
const asked = new Set(Object.values(globalThis).filter((value) => value instanceof Question));
console.log(JSON.stringify([...asked].map((q) => {
  const expected = q.expected();
  const plots = q.lines.some((line) => line.quantity === 'intercept' && line.id.startsWith('intercept'));
  const dr = plots && q.given && q.given.dr;
  return {
    id: q.id, title: q.title, task: q.task, printed: q.printed, table: q.table, cautions: q.cautions, code: q.code,
    plotAt: dr ? { latDeg: dr.latDeg, lonDeg: dr.lonDeg } : undefined,
    lines: q.lines.map((line) => {
      const tolerance = q.tolerance(line);
      const { form, print } = quantities[line.quantity];
      return {
        id: line.id, title: line.title, quantity: line.quantity, formula: line.formula, marks: line.marks ?? 1,
        form: line.choices ? line.choices.join(', ') : form, choices: line.choices ?? [],
        within: tolerance ? String(tolerance.size) + (tolerance.unit === 'nm' || tolerance.unit === 's' ? ' ' : '') + tolerance.unit : '',
        expected: print(expected.get(line.id)),
      };
    }),
  };
})));
`;

/**
 * The questions of a notebook with the numbers of each student, by running all cells but answers, checks and the
 * teacher's with the student's name.
 * @throws PublishError when the notebook has no cell tagged `student`, or a given cell fails
 */
export async function paperQuestions(
  source: Notebook,
  students: readonly string[],
  folder: string,
): Promise<StudentPaper[]> {
  const nameCell = source.cells.find((cell) => roleOf(cell) === 'name');
  if (!nameCell)
    throw new PublishError(
      'The notebook has no cell tagged "student"',
      'tag the cell that holds the name, so that paper can be made for each student',
    );
  const variable = /\b(?:const|let|var)\s+([\p{ID_Start}$_][\p{ID_Continue}$]*)/u.exec(
    textOf(nameCell.source),
  )?.[1];
  if (variable === undefined)
    throw new PublishError(
      'The cell tagged "student" makes no variable',
      "write const student = 'Your name' in it",
    );
  const papers: StudentPaper[] = [];
  const sandbox = new Sandbox({ folder });
  try {
    for (const student of students) {
      for (const cell of source.cells) {
        const role = roleOf(cell);
        if (cell.cell_type !== 'code' || !(role in RUN)) continue;
        const code =
          role === 'name' ? `var ${variable} = ${JSON.stringify(student)};` : textOf(cell.source);
        const { outcome } = await sandbox.run(cell.id ?? '', 'In[paper]', code);
        // What is not locked may be about an answer, and there is none on paper.
        if (outcome.status === 'error' && role !== 'free')
          throw new PublishError(
            `The given cell '${cell.id ?? ''}' failed for ${student}: ${outcome.error.evalue}`,
            'mend the notebook',
          );
      }
      const printed = await sandbox.run('questions', 'In[paper]', QUESTIONS_CELL);
      const figures = await sandbox.run('figures', 'In[paper]', EXPECTED_FIGURES_CELL);
      papers.push({
        student,
        questions: questionsIn(printed.events),
        expected: readExpected(figures.events),
      });
    }
  } finally {
    sandbox.end();
  }
  return papers;
}

function questionsIn(events: readonly { readonly type: string }[]): PaperQuestion[] {
  const text = events
    .map((e) => (e.type === 'stream' ? (e as unknown as { text: string }).text : ''))
    .join('');
  if (text === '')
    throw new PublishError(
      'The questions of the notebook could not be read',
      'run it in JupyterLab first',
    );
  return JSON.parse(text) as PaperQuestion[];
}
