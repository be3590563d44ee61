import fs from 'node:fs';
import path from 'node:path';
import { asNotebook, textOf, type Notebook } from '../../kernel/runner/notebook.js';
import { readAnswers } from '../client/answers-file.js';
import { graderOf, roleOf, studentEdition, type Role } from '../source/index.js';

/** One cell to run for a student: given cells as the teacher wrote them, the others as the student did. */
export interface ReturnedCell {
  readonly id: string;
  readonly role: Role;
  readonly source: string;
}

/** What a student handed in, put together with the notebook that was handed out. */
export interface Returned {
  /** The file, below the folder of returned answers. */
  readonly file: string;
  readonly cells: readonly ReturnedCell[];
  /** Version of the edition that was answered, where the file names it. */
  readonly edition?: string;
}

const MOST_BYTES = 20_000_000;

/** The files of a folder that can hold answers, and of its subfolders. */
export function returnedFiles(folder: string): string[] {
  return fs
    .readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(?:json|ipynb)$/.test(entry.name))
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)))
    .filter((file) => !file.split(path.sep).some((part) => part.startsWith('.')))
    .sort();
}

/** @throws Error saying in a sentence why the file cannot be marked */
export function readReturned(
  folder: string,
  file: string,
  source: Notebook,
  name: string,
): Returned {
  const text = textAt(folder, file);
  return file.endsWith('.ipynb')
    ? fromNotebook(file, text, source, name)
    : fromAnswers(file, text, source, name);
}

/** The lesson that a file says it answers. @throws Error saying in a sentence why it cannot be read */
export function lessonAnswered(folder: string, file: string): string | undefined {
  const text = textAt(folder, file);
  if (!file.endsWith('.ipynb')) return readAnswers(text).notebook;
  return editionOf(asNotebook(fromText(text), file)).notebook;
}

function textAt(folder: string, file: string): string {
  const place = path.join(folder, file);
  if (fs.statSync(place).size > MOST_BYTES) throw new Error('It is larger than 20 MB.');
  return fs.readFileSync(place, 'utf8');
}

/** What a returned notebook says of the edition it was. */
function editionOf({ metadata }: Notebook): { notebook?: string; version?: string } {
  const { edition } = (metadata?.['cocked_hat'] ?? {}) as {
    edition?: { notebook?: unknown; version?: unknown };
  };
  return {
    ...(typeof edition?.notebook === 'string' ? { notebook: edition.notebook } : {}),
    ...(typeof edition?.version === 'string' ? { version: edition.version } : {}),
  };
}

function fromAnswers(file: string, text: string, source: Notebook, name: string): Returned {
  const answers = readAnswers(text);
  if (answers.notebook !== name)
    throw new Error(`It answers "${answers.notebook}", not "${name}".`);
  const cells = studentCells(source).map((cell) => {
    const own =
      isOwn(cell.role) && Object.hasOwn(answers.cells, cell.id)
        ? answers.cells[cell.id]
        : undefined;
    return own === undefined ? cell : { ...cell, source: own };
  });
  return { file, cells, edition: answers.edition };
}

function fromText(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Error(
      `The file is damaged or cut short (${(error as Error).message}): ask for it again.`,
    );
  }
}

/** A returned notebook may hold cells of the student's own; given cells are taken from the source. */
function fromNotebook(file: string, text: string, source: Notebook, name: string): Returned {
  const notebook = asNotebook(fromText(text), file);
  const { notebook: answered, version } = editionOf(notebook);
  if (answered !== undefined && answered !== name)
    throw new Error(`It answers "${answered}", not "${name}".`);
  const given = new Map(studentCells(source).map((cell) => [cell.id, cell]));
  const seen = new Set<string>();
  const cells = notebook.cells
    .filter((cell) => cell.cell_type === 'code')
    .map((cell, i): ReturnedCell => {
      const id = graderOf(cell)?.grade_id ?? cell.id ?? `own-${i}`;
      const known = given.get(id);
      if (!known || seen.has(id))
        return { id: `own-${i}`, role: 'free', source: textOf(cell.source) };
      seen.add(id);
      return isOwn(known.role) ? { ...known, source: textOf(cell.source) } : known;
    });
  const missing = [...given.values()].filter(({ id }) => !seen.has(id));
  return {
    file,
    cells: [...cells, ...missing],
    ...(version === undefined ? {} : { edition: version }),
  };
}

const isOwn = (role: Role): boolean => role === 'answer' || role === 'name' || role === 'free';

/** The code cells of the student edition. */
export function studentCells(source: Notebook): ReturnedCell[] {
  return studentEdition(source)
    .notebook.cells.filter((cell) => cell.cell_type === 'code')
    .map((cell) => ({ id: cell.id ?? '', role: roleOf(cell), source: textOf(cell.source) }));
}
