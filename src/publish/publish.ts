import path from 'node:path';
import { EXERCISE_YEAR } from '../exercises/index.js';
import { makeEditions, PublishError, type Edition, type Editions } from './edition.js';
import { oneFilePage, pageCells, pageParts } from './page/index.js';
import { notebookText } from '../kernel/runner/run-notebook.js';
import { findLeaks } from './source/index.js';
import { writeEdition, type EditionFile } from './write/atomic.js';

export const FORMS = ['page', 'notebook'] as const;
export type Form = (typeof FORMS)[number];

export interface PublishOptions {
  readonly out: string;
  readonly forms?: readonly Form[];
  /** Years whose ephemeris a page carries besides those written in the notebook. */
  readonly years?: readonly number[];
  readonly tell?: (text: string) => void;
}

export interface Published {
  readonly folder: string;
  readonly files: readonly string[];
}

/**
 * Publishes notebooks: for each a student's and a teacher's edition in every form asked for, below `student/` and
 * `teacher/` of the output folder. Nothing is written before every file has been made and the students' have been
 * searched for answers.
 * @throws PublishError
 */
export async function publish(
  notebooks: readonly string[],
  options: PublishOptions,
): Promise<Published> {
  const { out, forms = FORMS, years = [], tell = () => {} } = options;
  const all: EditionFile[] = [];
  for (const file of notebooks) {
    tell(`${path.basename(file)}: runs`);
    const editions = await makeEditions(file);
    const student = filesOf(editions.student, forms, years);
    refuseLeaks(student, editions);
    all.push(
      ...student.map((f) => ({ ...f, name: `student/${f.name}` })),
      ...filesOf(editions.teacher, forms, years).map((f) => ({ ...f, name: `teacher/${f.name}` })),
    );
  }
  writeEdition(out, all);
  return { folder: path.resolve(out), files: all.map((f) => f.name) };
}

/** File names carry the version, so that no browser or server shows an older edition under a newer one's name. */
function filesOf(
  edition: Edition,
  forms: readonly Form[],
  years: readonly number[],
): EditionFile[] {
  const { facts, notebook } = edition;
  const stem = `${facts.notebook}-${facts.version}`;
  const bytes = (text: string) => Buffer.from(text, 'utf8');
  return forms.map((form) => {
    if (form === 'notebook')
      return { name: `${stem}.ipynb`, bytes: bytes(notebookText(withFacts(edition))) };
    const data = { edition: facts, cells: pageCells(notebook) };
    const parts = pageParts(notebook, [EXERCISE_YEAR, ...years]);
    return { name: `${stem}.html`, bytes: bytes(oneFilePage(data, parts)) };
  });
}

function withFacts({ notebook, facts }: Edition): Edition['notebook'] {
  const about = notebook.metadata['cocked_hat'] as object | undefined;
  return {
    ...notebook,
    metadata: { ...notebook.metadata, cocked_hat: { ...about, edition: facts } },
  };
}

function refuseLeaks(files: readonly EditionFile[], { secrets }: Editions): void {
  const [leak] = findLeaks(files, secrets);
  if (leak)
    throw new PublishError(
      `${leak.file} would hold ${leak.secret.kind === 'figure' ? 'a figure of the answer' : 'a line of the solution'} (${leak.form}): ${leak.secret.text}`,
      'put the cell that shows it between BEGIN SOLUTION and END SOLUTION, or tag it teacher',
    );
}
