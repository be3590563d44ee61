import fs from 'node:fs';
import { markClass } from '../../publish/index.js';
import type { Command, Given } from '../command.js';
import { UsageError } from '../errors.js';
import { findNotebooks } from '../notebooks/index.js';
import type { Terminal } from '../terminal.js';
import { publishFailure } from '../publish-failure.js';

const SHOWN_SLIPS = 5;

async function run({ values, positionals }: Given, terminal: Terminal): Promise<number> {
  const [notebook, returned, ...more] = positionals;
  if (notebook === undefined || returned === undefined || more.length > 0)
    throw new UsageError(
      'mark needs the notebook and the folder of returned answers, as in mark lesson.ipynb returned -o marks.',
    );
  const [found] = findNotebooks([notebook]);
  if (!fs.statSync(returned, { throwIfNoEntry: false })?.isDirectory())
    throw new UsageError(`${returned} is not a folder of returned answers.`);
  const out = values['output'] as string | undefined;
  if (out === undefined) throw new UsageError('mark needs a folder to write to, as in -o marks.');
  try {
    const since = Date.now();
    const { folder, files, slips } = await markClass(found as string, returned, {
      out,
      tell: (done, of) => terminal.status(`${done} of ${of} marked`),
    });
    terminal.status('');
    const whole = files.filter((f) => f.questions.length > 0 && f.remarks.length === 0).length;
    terminal.say(
      `${folder}: ${files.length} ${files.length === 1 ? 'file' : 'files'} marked in ${((Date.now() - since) / 1000).toFixed(1)} s, ${files.length - whole} with remarks`,
    );
    for (const { line, slip, students } of slips.slice(0, SHOWN_SLIPS))
      terminal.say(`  ${students.length} × ${slip} (${line})`);
    return 0;
  } catch (error) {
    throw publishFailure(error);
  }
}

export const mark: Command = {
  name: 'mark',
  summary: 'mark a folder of returned answers, line by line',
  options: { output: { type: 'string', short: 'o' } },
  help: `Usage: cocked-hat mark NOTEBOOK RETURNED -o FOLDER

Marks every file of answers (saved from a page, .json) and every notebook (.ipynb) in the folder
RETURNED with the teacher's NOTEBOOK, and writes to FOLDER:
  marks.csv   one row a file: marks, first wrong line, slips, and the marks of every line
  slips.csv   the class's slips, the commonest first
  feedback/   a text for each student

Students' cells run in a process of their own that reads nothing but this program, writes nowhere,
starts no program, and is stopped when it takes too long or too much memory; the marks are worked
out in another process. What is not held back: the network. Node calls its permission model no
guard against malicious code, so mark unknown people's work on a machine that holds nothing of
value.

Exit code: 0 if the table was written, also when some files could not be marked (it says why).

Examples
  cocked-hat mark notebooks/exercises/2-sun-altitude.ipynb returned -o marks`,
  run,
};
