import fs from 'node:fs';
import { counted } from '../../core/units/counted.js';
import {
  FORMS,
  PAPER_SIZES,
  publish as publishNotebooks,
  readClassList,
  type Form,
  type PaperSize,
} from '../../publish/index.js';
import type { Command, Given } from '../command.js';
import { UsageError } from '../errors.js';
import { findNotebooks } from '../notebooks/index.js';
import type { Terminal } from '../terminal.js';
import { publishFailure } from '../publish-failure.js';

function readForms(words: readonly string[] | undefined): readonly Form[] | undefined {
  if (!words || words.length === 0) return undefined;
  const wrong = words.find((word) => !FORMS.includes(word as Form));
  if (wrong !== undefined)
    throw new UsageError(`--form ${wrong}: the forms are ${FORMS.join(', ')}.`);
  return FORMS.filter((form) => words.includes(form));
}

/** Names given one by one and in a class list. @throws PublishError when the list cannot be read */
function readStudents(values: Given['values']): string[] {
  const file = values['students'] as string | undefined;
  const listed = (values['student'] as string[] | undefined) ?? [];
  if (file === undefined) return listed;
  if (!fs.statSync(file, { throwIfNoEntry: false })?.isFile())
    throw new UsageError(`--students ${file}: there is no such file.`);
  const { students } = readClassList(fs.readFileSync(file, 'utf8'), file);
  return [...listed, ...students.map(({ name }) => name)];
}

function readSize(word: string | undefined): PaperSize | undefined {
  if (word === undefined) return undefined;
  const size = PAPER_SIZES.find((s) => s.toLowerCase() === word.toLowerCase());
  if (!size) throw new UsageError(`--paper-size ${word}: the sizes are ${PAPER_SIZES.join(', ')}.`);
  return size;
}

const filesFor = (n: number, whom: string): string => `${counted(n, 'file')} for ${whom}`;

const MOST_NAMED = 20;
/** What a student opens first: of a site its first page only. */
function opened(files: readonly string[]): string[] {
  const named = files.filter(
    (f) => !f.startsWith('student/site/') || f === 'student/site/index.html',
  );
  return named.length <= MOST_NAMED
    ? named
    : [...named.slice(0, MOST_NAMED), `and ${named.length - MOST_NAMED} more`];
}

async function run({ values, positionals }: Given, terminal: Terminal): Promise<number> {
  if (positionals.length === 0)
    throw new UsageError(
      'publish needs at least one notebook, as in publish notebooks/exercises -o class.',
    );
  const out = values['output'] as string | undefined;
  if (out === undefined)
    throw new UsageError('publish needs a folder to write to, as in -o class.');
  const forms = readForms(values['form'] as string[] | undefined);
  const paperSize = readSize(values['paper-size'] as string | undefined);
  try {
    const named = readStudents(values);
    const { folder, files, remarks } = await publishNotebooks(findNotebooks(positionals), {
      out,
      students: named,
      ...(forms ? { forms } : {}),
      ...(paperSize ? { paperSize } : {}),
      ...(values['title'] === undefined ? {} : { title: String(values['title']) }),
      tell: (text) => terminal.status(text),
    });
    terminal.status('');
    const students = files.filter((file) => file.startsWith('student/'));
    terminal.say(
      `${folder}: ${filesFor(students.length, 'students')}, ${filesFor(files.length - students.length, 'teachers')}`,
    );
    for (const file of opened(students)) terminal.say(`  ${file}`);
    for (const remark of remarks) terminal.say(`Note: ${remark}`);
    return 0;
  } catch (error) {
    throw publishFailure(error);
  }
}

export const publish: Command = {
  name: 'publish',
  summary: 'make student and teacher editions of notebooks, as pages that run anywhere',
  options: {
    output: { type: 'string', short: 'o' },
    form: { type: 'string', multiple: true },
    student: { type: 'string', multiple: true },
    students: { type: 'string' },
    'paper-size': { type: 'string' },
    title: { type: 'string' },
  },
  help: `Usage: cocked-hat publish NOTEBOOK... -o FOLDER [--form FORM]... [--student NAME]...
                          [--students FILE] [--paper-size SIZE]

Makes two editions of each notebook in FOLDER/student and FOLDER/teacher. Solutions (between
BEGIN SOLUTION and END SOLUTION, and cells tagged "teacher") are taken out of the students'
edition, and every file of it is searched for answers before anything is written. The folder is
replaced as a whole; one that publish did not make is left alone.

  -o, --output FOLDER  where the editions go
  --form FORM          page: one HTML file that runs by itself, also from a memory stick
                       notebook: a notebook for JupyterLab and nbgrader
                       paper: pages to print, a work form and a plotting sheet for each
                       student; the answers are in the teacher's edition only
                       site: a JupyterLite site of all the notebooks, files for any web
                       server at any path (Python with jupyterlite-core builds it)
                       Without --form, page and notebook, and paper where students are named.
  --title TEXT         heading of the site's first page
  --student NAME       a student for whom paper is made, with numbers of their own
  --students FILE      names from a file, one a line, or a CSV table with a column "student"
  --paper-size SIZE    A4 (which is taken unless told) or Letter

Exit code: 0 if all was written, 1 if something stood in the way (nothing is written then).

Examples
  cocked-hat publish notebooks/exercises -o class
  cocked-hat publish lesson.ipynb -o lesson --form page
  cocked-hat publish notebooks/exercises -o paper --form paper --students class.txt`,
  run,
};
