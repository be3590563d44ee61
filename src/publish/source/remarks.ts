import { textOf, type Cell, type Notebook } from '../../kernel/runner/notebook.js';
import { roleOf } from './roles.js';

const HEADING = /^#{1,3}\s+\S/m;
const CHECK = /\bcheck\s*\(/;
const EXPECTED = /\.\s*expected\s*\(/;
const FROM_AFAR = /!\[[^\]]*\]\(\s*<?https?:/i;

/** What the author of an exercise may have forgotten, read from the student's edition: whole sentences, none when all is well. */
export function remarksOn({ cells }: Notebook): string[] {
  const code = cells.filter((cell) => cell.cell_type === 'code');
  const text = (cell: Cell) => textOf(cell.source);
  const answers = code.filter((cell) => roleOf(cell) === 'answer');
  const checks = code.filter((cell) => CHECK.test(text(cell)));
  const isExercise = answers.length > 0 || checks.length > 0;
  const remarks: string[] = [];
  if (!cells.some((cell) => cell.cell_type === 'markdown' && HEADING.test(text(cell))))
    remarks.push(
      'it has no heading, so its page is called by the name of its file. Begin a text cell with # and the title.',
    );
  if (answers.length > 0 && checks.every((cell) => answers.includes(cell)))
    remarks.push(
      'no cell below the answer checks it, so students are told nothing and mark finds nothing to mark. Put check(q, answer) into a cell of its own.',
    );
  if (answers.length === 0 && checks.length > 0)
    remarks.push(
      'there is a check, and no cell with // BEGIN SOLUTION … // END SOLUTION: nothing was taken out for students.',
    );
  if (isExercise && !code.some((cell) => roleOf(cell) === 'name'))
    remarks.push(
      "no cell is tagged student, so mark knows no names. Tag the cell with the name: const student = 'Your name';",
    );
  const asks = code.findIndex((cell) => EXPECTED.test(text(cell)));
  if (asks >= 0)
    remarks.push(
      `code cell ${asks + 1} of the students' edition asks for expected(), the right figures. Tag it teacher, or put it between the solution marks.`,
    );
  if (cells.some((cell) => cell.cell_type === 'markdown' && FROM_AFAR.test(text(cell))))
    remarks.push(
      'a picture comes from the network, and a page fetches nothing. Save it beside the notebook.',
    );
  return remarks;
}

const NOT_DEFINED = /^ReferenceError: (\S+) is not defined/;

/**
 * Names that a cell of the students' edition needs and only a cell tagged `teacher` makes, as the run of that edition
 * found: the page would tell every student that they are not defined.
 */
export function leftBehind(
  failures: readonly { readonly number: number; readonly message: string }[],
  { cells }: Notebook,
): string[] {
  const teachers = cells
    .filter((cell) => cell.cell_type === 'code' && roleOf(cell) === 'teacher')
    .map((cell) => textOf(cell.source));
  const first = failures
    .map(({ number, message }) => ({ number, name: NOT_DEFINED.exec(message)?.[1] ?? '' }))
    .find(({ name }) => name !== '' && teachers.some((text) => words(text).has(name)));
  return first === undefined
    ? []
    : [
        `code cell ${first.number} of the students' edition needs ${first.name}, which only a cell tagged teacher has. Take the tag off, or tag both.`,
      ];
}

const words = (text: string): ReadonlySet<string> => new Set(text.match(/[\p{L}\p{N}_$]+/gu));
