import fs from 'node:fs';
import { counted } from '../../core/units/counted.js';
import {
  markClass,
  notHandedIn,
  readClassList,
  type ClassList,
  type ClassMarks,
} from '../../publish/index.js';
import type { Command, Given } from '../command.js';
import { UsageError } from '../errors.js';
import { findNotebooks } from '../notebooks/index.js';
import type { Terminal } from '../terminal.js';
import { publishFailure } from '../publish-failure.js';

const SHOWN_SLIPS = 5;
const SHOWN_NAMES = 30;

async function run({ values, positionals }: Given, terminal: Terminal): Promise<number> {
  const notebooks = positionals.slice(0, -1);
  const returned = positionals.at(-1);
  if (notebooks.length === 0 || returned === undefined)
    throw new UsageError(
      'mark needs the notebook and the folder of returned answers, as in mark lesson.ipynb returned -o marks.',
    );
  const found = findNotebooks(notebooks);
  if (!fs.statSync(returned, { throwIfNoEntry: false })?.isDirectory())
    throw new UsageError(`${returned} is not a folder of returned answers.`);
  const out = values['output'] as string | undefined;
  if (out === undefined) throw new UsageError('mark needs a folder to write to, as in -o marks.');
  try {
    const since = Date.now();
    const list = listAt(values['class'] as string | undefined);
    const marks = await markClass(found, returned, {
      out,
      ...(list ? { list } : {}),
      tell: (done, of) => terminal.status(`${done} of ${of} marked`),
    });
    terminal.status('');
    const { folder, files, slips } = marks;
    const whole = files.filter((f) => f.questions.length > 0 && f.remarks.length === 0).length;
    terminal.say(
      `${folder}: ${counted(files.length, 'file')} marked in ${((Date.now() - since) / 1000).toFixed(1)} s, ${files.length - whole} with remarks`,
    );
    if (files.length + marks.strays.length === 0)
      terminal.say(`  ${returned} holds no answers (.json) and no notebook (.ipynb)`);
    for (const line of classLines(marks, list)) terminal.say(line);
    for (const { line, slip, students } of slips.slice(0, SHOWN_SLIPS))
      terminal.say(`  ${students.length} × ${slip} (${line})`);
    return 0;
  } catch (error) {
    throw publishFailure(error);
  }
}

function listAt(file: string | undefined): ClassList | undefined {
  if (file === undefined) return undefined;
  if (!fs.statSync(file, { throwIfNoEntry: false })?.isFile())
    throw new UsageError(`--class ${file}: there is no such file.`);
  return readClassList(fs.readFileSync(file, 'utf8'), file);
}

/** Who has not handed in, who is not on the list, which files are for none of the lessons. */
function classLines({ lessons, rows, strays }: ClassMarks, list: ClassList | undefined): string[] {
  const listed = rows.filter(({ onList }) => onList);
  const missing = lessons.flatMap((lesson) => {
    const late = listed.filter(({ marks }) => notHandedIn(marks, lessons).includes(lesson.name));
    return late.length === 0
      ? []
      : [`  ${lesson.name}: not handed in by ${some(late.map(({ student }) => student))}`];
  });
  const others = list ? rows.filter(({ onList }) => !onList) : [];
  return [
    ...missing,
    ...(others.length > 0
      ? [`  not on the class list: ${some(others.map(({ student }) => student))}`]
      : []),
    ...strays.map(({ file, why }) => `  ${file}: ${why}`),
  ];
}

const some = (names: readonly string[]): string =>
  names.length <= SHOWN_NAMES
    ? names.join(', ')
    : `${names.slice(0, SHOWN_NAMES).join(', ')} and ${names.length - SHOWN_NAMES} more`;

export const mark: Command = {
  name: 'mark',
  summary: 'mark a folder of returned answers, line by line',
  options: { output: { type: 'string', short: 'o' }, class: { type: 'string' } },
  help: `Usage: cocked-hat mark NOTEBOOK... RETURNED -o FOLDER [--class FILE]

Marks every file of answers (saved from a page, .json) and every notebook (.ipynb) in the folder
RETURNED with the teacher's NOTEBOOK, and writes to FOLDER:
  marks.csv   one row a file: marks, first wrong line, slips, and the marks of every line;
              under a line that is answered in words, the words
  slips.csv   the class's slips, the commonest first
  feedback/   a text for each student
With several notebooks (or a folder of them) each file is marked with the lesson it answers, and
each lesson has a folder of its own in FOLDER; strays.csv names the files that answer none.

  --class FILE  who is in the class: one name a line, or a CSV table with a column headed
                "student" or "name", whose other columns are kept. The names are those that the
                students write; capitals and blanks do not matter.
With it, or with several lessons, there is also
  class.csv   one row a student: marks of each lesson (of the best, where one handed in twice),
              their sum, what is not handed in, and remarks: another edition was answered, the
              name is not on the list, and whose name is near to it

Students' cells run in a process of their own that reads nothing but this program, writes nowhere,
starts no program, and is stopped when it takes too long or too much memory; the marks are worked
out in another process. What is not held back: the network. Node calls its permission model no
guard against malicious code, so mark unknown people's work on a machine that holds nothing of
value.

Exit code: 0 if the table was written, also when some files could not be marked (it says why).

Examples
  cocked-hat mark notebooks/exercises/2-sun-altitude.ipynb returned -o marks
  cocked-hat mark notebooks/exercises returned -o marks --class class.csv`,
  run,
};
