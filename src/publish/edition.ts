import fs from 'node:fs';
import path from 'node:path';
import { asNotebook, otherLanguage, type Notebook } from '../kernel/runner/notebook.js';
import { runCells, type CellFailure } from './sandbox/index.js';
import { PublishError } from './publish-error.js';
import type { EditionFacts } from './client/page-data.js';
import {
  editionFacts,
  EXPECTED_FIGURES_CELL,
  leftBehind,
  readExpected,
  remarksOn,
  secretsOf,
  studentEdition,
  teacherEdition,
  withPictures,
  type Secret,
} from './source/index.js';

/** One edition of a notebook, run and ready to be put into any form. */
export interface Edition {
  readonly facts: EditionFacts;
  readonly notebook: Notebook;
}

export interface Editions {
  readonly student: Edition;
  readonly teacher: Edition;
  /** What must not be found in anything made from the student edition. */
  readonly secrets: readonly Secret[];
  /** What its author may have forgotten, in whole sentences. */
  readonly remarks: readonly string[];
}

const LONGEST_NAME = 80;

/**
 * The name of a notebook's editions: its file's name without `.ipynb`, with a hyphen for whatever an address or a
 * memory stick may not carry: `Low Sun – été.ipynb` becomes `Low-Sun-été`.
 * @throws PublishError when no letter or digit is in it
 */
export function editionName(file: string): string {
  const name = path.basename(file, '.ipynb').normalize('NFC');
  const plain = name
    .replace(/[^\p{L}\p{N}._-]+/gu, '-')
    .replace(/^[._-]+/u, '')
    .slice(0, LONGEST_NAME)
    .replace(/[._-]+$/u, '');
  if (plain !== '') return plain;
  throw new PublishError(
    `The name '${name}' cannot go into the names of pages`,
    'give the notebook a name with a letter or a digit in it',
  );
}

export function readNotebookFile(file: string): Notebook {
  try {
    return asNotebook(JSON.parse(fs.readFileSync(file, 'utf8')), file);
  } catch (error) {
    const damaged =
      error instanceof SyntaxError ? 'it is damaged or cut short, or no notebook: ' : '';
    throw new PublishError(
      `${file} cannot be read: ${damaged}${(error as Error).message}`,
      'open it in JupyterLab and save it there, or take an earlier copy',
    );
  }
}

/**
 * Makes and runs both editions of a notebook.
 * @throws PublishError when solution marks do not pair, two cells have one name, or a cell of the teacher's edition fails
 */
export async function makeEditions(file: string): Promise<Editions> {
  const name = editionName(file);
  const folder = path.dirname(path.resolve(file));
  const given = readNotebookFile(file);
  refuseOtherLanguage(given, file);
  const source = withPictures(given, folder, file);
  const { notebook: blank, removed } = split(source, file);
  refuseDoubles(blank, file);
  const [student, teacher] = await Promise.all([
    runCells(blank, { folder, goOn: true }),
    runCells(teacherEdition(source), { folder }, EXPECTED_FIGURES_CELL),
  ]);
  refuseFailure(teacher.failures, file);
  const { figures, printed } = readExpected(teacher.after?.events ?? []);
  const facts = (kind: 'student' | 'teacher') => editionFacts(blank, { kind, name });
  return {
    student: { facts: facts('student'), notebook: student.notebook },
    teacher: { facts: facts('teacher'), notebook: teacher.notebook },
    secrets: secretsOf(removed, figures, blank, printed),
    remarks: [...remarksOn(blank), ...leftBehind(student.failures, source)].map(
      (remark) => `${path.basename(file)}: ${remark}`,
    ),
  };
}

function refuseOtherLanguage(notebook: Notebook, file: string): void {
  const other = otherLanguage(notebook);
  if (other !== undefined)
    throw new PublishError(
      `${file} is a notebook for ${other}, and editions run TypeScript`,
      'in JupyterLab choose Kernel, Change Kernel, TypeScript · Cocked Hat, and save it; its cells have to be TypeScript',
    );
}

function split(source: Notebook, file: string) {
  try {
    return studentEdition(source);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new PublishError(
      `${file}: ${error.message}`,
      'write // BEGIN SOLUTION and // END SOLUTION, each on a line of its own, once before and once after the lines to take out',
    );
  }
}

function refuseDoubles({ cells }: Notebook, file: string): void {
  const ids = cells.map((cell) => cell.id);
  const twice = ids.find((id, i) => ids.indexOf(id) !== i);
  if (twice !== undefined)
    throw new PublishError(
      `${file}: two cells are named '${twice}'`,
      'give each its own nbgrader ID, since answers are kept by it',
    );
}

function refuseFailure(failures: readonly CellFailure[], file: string): void {
  const [first] = failures;
  if (first)
    throw new PublishError(
      `${file}: code cell ${first.number} ('${first.cell}') failed: ${first.message}`,
      'mend the notebook, or tag the cell raises-exception if it is meant to fail',
    );
}
