import path from 'node:path';
import { EXERCISE_YEAR } from '../exercises/index.js';
import { textOf } from '../kernel/runner/notebook.js';
import { notebookText } from '../kernel/runner/run-notebook.js';
import {
  editionName,
  makeEditions,
  readNotebookFile,
  type Edition,
  type Editions,
} from './edition.js';
import { PublishError } from './publish-error.js';
import { builtFile, oneFilePage, pageCells, pageParts, yearsIn } from './page/index.js';
import { paperHtml, paperQuestions, type PaperSize, type StudentPaper } from './paper/index.js';
import { siteFiles } from './site/index.js';
import {
  findLeaks,
  refuseImports,
  secretsOf,
  studentEdition,
  type Secret,
} from './source/index.js';
import { writeEdition, type EditionFile } from './write/atomic.js';

export const FORMS = ['page', 'notebook', 'paper', 'site'] as const;
export type Form = (typeof FORMS)[number];

const DEFAULT_FORMS = ['page', 'notebook'] as const;

export interface PublishOptions {
  readonly out: string;
  /** Pages and notebooks unless told, and paper where students are named; a site only when it is asked for. */
  readonly forms?: readonly Form[];
  /** Names for whom paper is made, each with numbers of their own. */
  readonly students?: readonly string[];
  readonly paperSize?: PaperSize;
  /** Heading of a site's first page. */
  readonly title?: string;
  /** Years whose ephemeris a page carries besides those written in the notebook. */
  readonly years?: readonly number[];
  readonly tell?: (text: string) => void;
}

export interface Published {
  readonly folder: string;
  readonly files: readonly string[];
  /** What an author may have forgotten, in whole sentences. */
  readonly remarks: readonly string[];
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
  const { out, students = [], tell = () => {} } = options;
  const forms = options.forms ?? [
    ...DEFAULT_FORMS,
    ...(students.length > 0 ? (['paper'] as const) : []),
  ];
  if (forms.includes('paper') && students.length === 0)
    throw new PublishError(
      'Paper is made for students by name',
      'name them: --student "Ana Lima", or --students FILE',
    );
  refuseSameNames(notebooks);
  const all: EditionFile[] = [];
  const made: Editions[] = [];
  const remarks: string[] = [];
  for (const file of notebooks) {
    tell(`${path.basename(file)}: runs`);
    const editions = await makeEditions(file);
    const papers = forms.includes('paper') ? await papersOf(file, students) : [];
    const files = (edition: Edition) => filesOf(edition, papers, { ...options, forms });
    const [student, teacher] = [files(editions.student), files(editions.teacher)];
    made.push(editions);
    remarks.push(...editions.remarks, ...emptyPaper(papers, file));
    refuseLeaks(student, [...editions.secrets, ...secretsOfPaper(editions, papers)]);
    all.push(...inFolder('student', student), ...inFolder('teacher', teacher));
  }
  if (forms.includes('site')) {
    tell('the site: is built');
    all.push(...(await sites(made, options)));
  }
  writeEdition(out, all);
  return {
    folder: path.resolve(out),
    files: all.map((f) => f.name),
    remarks,
  };
}

/** Answers and pages are told apart by the edition's name. */
function refuseSameNames(notebooks: readonly string[]): void {
  const named = new Map<string, string>();
  for (const file of notebooks) {
    const name = editionName(file);
    const other = named.get(name);
    if (other !== undefined)
      throw new PublishError(
        `${other} and ${file} would both make pages named '${name}'`,
        'rename one of the two notebooks',
      );
    named.set(name, file);
  }
}

const inFolder = (folder: string, files: readonly EditionFile[]): EditionFile[] =>
  files.map(({ name, bytes }) => ({ name: `${folder}/${name}`, bytes }));

const papersOf = (file: string, students: readonly string[]): Promise<StudentPaper[]> =>
  paperQuestions(readNotebookFile(file), students, path.dirname(path.resolve(file)));

const emptyPaper = (papers: readonly StudentPaper[], file: string): string[] =>
  papers.length > 0 && papers.every(({ questions }) => questions.length === 0)
    ? [`${path.basename(file)}: no cell for students makes a question, so its paper is empty.`]
    : [];

/** A file, and the part of it that comes from the notebook: what is the same in every page cannot hold an answer. */
interface MadeFile extends EditionFile {
  readonly own: Uint8Array;
}

/** A site for students and one for teachers, each with all notebooks. */
async function sites(
  all: readonly Editions[],
  { title, years = [] }: PublishOptions,
): Promise<EditionFile[]> {
  const name = title ?? (all.length === 1 ? (all[0]?.student.facts.title ?? '') : 'Exercises');
  const kinds = ['student', 'teacher'] as const;
  const both = kinds.flatMap((kind) => all.map((editions) => editions[kind]));
  for (const { notebook } of both) refuseImports(notebook, 'site');
  const sources = both.flatMap(({ notebook }) => notebook.cells.map((c) => textOf(c.source)));
  const made = await siteFiles(
    kinds.map((kind) => ({
      name: kind,
      title: name,
      notebooks: all.map(({ [kind]: edition }) => ({
        facts: edition.facts,
        file: `${edition.facts.notebook}-${edition.facts.version}.ipynb`,
        text: notebookText(withFacts(edition)),
      })),
    })),
    yearsIn(sources.join('\n'), [EXERCISE_YEAR, ...years]),
  );
  // What comes from the notebooks; the rest is the same in every site.
  const own = (made.get('student') ?? []).filter((f) =>
    /^(?:files|api)\/|^index\.html$/.test(f.name),
  );
  refuseLeaks(
    own.map((f) => ({ ...f, own: f.bytes })),
    secretsOfSite(all),
  );
  return [...made].flatMap(([kind, files]) => inFolder(`${kind}/site`, files));
}

type Making = PublishOptions & { readonly forms: readonly Form[] };

/** What one notebook keeps to itself and another of the site says openly is no secret there, as `dip(evening)`. */
function secretsOfSite(all: readonly Editions[]): Secret[] {
  const open = all
    .flatMap(({ student }) => student.notebook.cells.map((cell) => textOf(cell.source)))
    .join('\n');
  return all.flatMap(({ secrets }) => secrets.filter(({ text }) => !open.includes(text)));
}

/** File names carry the version, so that no browser or server shows an older edition under a newer one's name. */
function filesOf(edition: Edition, papers: readonly StudentPaper[], making: Making): MadeFile[] {
  const { facts, notebook } = edition;
  const stem = `${facts.notebook}-${facts.version}`;
  const made = (name: string, text: string, own = text): MadeFile => ({
    name,
    bytes: Buffer.from(text, 'utf8'),
    own: Buffer.from(own, 'utf8'),
  });
  return making.forms
    .filter((form) => form !== 'site')
    .map((form): MadeFile => {
      if (form === 'notebook') return made(`${stem}.ipynb`, notebookText(withFacts(edition)));
      if (form === 'paper') return made(`${stem}-paper.html`, paperOf(edition, papers, making));
      refuseImports(notebook, 'page');
      const data = { edition: facts, cells: pageCells(notebook) };
      const parts = pageParts(notebook, [EXERCISE_YEAR, ...(making.years ?? [])]);
      const bare = { script: '', css: '', ephemeris: { name: '', bytes: new Uint8Array() } };
      return made(`${stem}.html`, oneFilePage(data, parts), oneFilePage(data, bare));
    });
}

function paperOf(
  { facts, notebook }: Edition,
  papers: readonly StudentPaper[],
  making: Making,
): string {
  return paperHtml(studentEdition(notebook).notebook, papers, facts, {
    css: builtFile('paper.css'),
    size: making.paperSize ?? 'A4',
    answers: facts.kind === 'teacher',
  });
}

/** The expected figures of every student on paper. */
function secretsOfPaper({ student }: Editions, papers: readonly StudentPaper[]): Secret[] {
  return papers.flatMap(({ expected }) =>
    secretsOf(
      [],
      expected.figures,
      student.notebook,
      papers.map((p) => p.expected.printed).join('\n'),
    ),
  );
}

function withFacts({ notebook, facts }: Edition): Edition['notebook'] {
  const about = notebook.metadata['cocked_hat'] as object | undefined;
  return {
    ...notebook,
    metadata: { ...notebook.metadata, cocked_hat: { ...about, edition: facts } },
  };
}

function refuseLeaks(files: readonly MadeFile[], secrets: readonly Secret[]): void {
  const own = files.map((f) => ({ name: f.name, bytes: f.own }));
  const [leak] = findLeaks(own, secrets);
  if (leak)
    throw new PublishError(
      `${leak.file} would hold ${leak.secret.kind === 'figure' ? 'a figure of the answer' : 'a line of the solution'} (${leak.form}): ${leak.secret.text}`,
      'put the cell that shows it between BEGIN SOLUTION and END SOLUTION, or tag it teacher',
    );
}
