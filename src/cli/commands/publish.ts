import {
  FORMS,
  publish as publishNotebooks,
  PublishError,
  type Form,
} from '../../publish/index.js';
import type { Command, Given } from '../command.js';
import { JobError, UsageError } from '../errors.js';
import { findNotebooks } from '../notebooks/index.js';
import type { Terminal } from '../terminal.js';

function readForms(words: readonly string[] | undefined): readonly Form[] {
  if (!words || words.length === 0) return FORMS;
  const wrong = words.find((word) => !FORMS.includes(word as Form));
  if (wrong !== undefined)
    throw new UsageError(`--form ${wrong}: the forms are ${FORMS.join(', ')}.`);
  return FORMS.filter((form) => words.includes(form));
}

async function run({ values, positionals }: Given, terminal: Terminal): Promise<number> {
  if (positionals.length === 0)
    throw new UsageError(
      'publish needs at least one notebook, as in publish notebooks/exercises -o class.',
    );
  const out = values['output'] as string | undefined;
  if (out === undefined)
    throw new UsageError('publish needs a folder to write to, as in -o class.');
  try {
    const { folder, files } = await publishNotebooks(findNotebooks(positionals), {
      out,
      forms: readForms(values['form'] as string[] | undefined),
      tell: (text) => terminal.status(text),
    });
    terminal.status('');
    const students = files.filter((file) => file.startsWith('student/')).length;
    terminal.say(
      `${folder}: ${students} files for students, ${files.length - students} for teachers`,
    );
    return 0;
  } catch (error) {
    if (error instanceof PublishError)
      throw new JobError(error.message, error.remedy, { cause: error });
    if (error instanceof RangeError) throw new JobError(error.message, 'nothing was written');
    throw error;
  }
}

export const publish: Command = {
  name: 'publish',
  summary: 'make student and teacher editions of notebooks, as pages that run anywhere',
  options: {
    output: { type: 'string', short: 'o' },
    form: { type: 'string', multiple: true },
  },
  help: `Usage: cocked-hat publish NOTEBOOK... -o FOLDER [--form FORM]...

Makes two editions of each notebook in FOLDER/student and FOLDER/teacher. Solutions (between
BEGIN SOLUTION and END SOLUTION, and cells tagged "teacher") are taken out of the students'
edition, and every file of it is searched for answers before anything is written. The folder is
replaced as a whole; one that publish did not make is left alone.

  -o, --output FOLDER  where the editions go
  --form FORM          page: one HTML file that runs by itself, also from a memory stick
                       notebook: a notebook for JupyterLab and nbgrader
                       Without --form, all of them.

Exit code: 0 if all was written, 1 if something stood in the way (nothing is written then).

Examples
  cocked-hat publish notebooks/exercises -o class
  cocked-hat publish lesson.ipynb -o lesson --form page`,
  run,
};
