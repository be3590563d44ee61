import fs from 'node:fs';
import { counted } from '../../core/units/counted.js';
import { PublishError, reproduce as reproduceEdition } from '../../publish/index.js';
import type { Command, Given } from '../command.js';
import { JobError, UsageError } from '../errors.js';
import type { Terminal } from '../terminal.js';

async function reproduceOne(file: string, terminal: Terminal): Promise<boolean> {
  const { edition, numbers, cells, differences, changes, same } = await reproduceEdition(file);
  const what = `${file}: edition ${edition.version}, ${counted(cells, 'cell')}, ${counted(numbers, 'number')}`;
  if (same) terminal.say(`${what}: all the same`);
  else terminal.warn(`${what}: ${differences.length} DIFFERENT`);
  for (const { cell, where, published, now } of differences)
    terminal.warn(`  cell '${cell}', ${where}: published ${published}, now ${now}`);
  for (const change of changes) terminal.warn(`  ${change}`);
  return same;
}

async function run({ positionals }: Given, terminal: Terminal): Promise<number> {
  if (positionals.length === 0)
    throw new UsageError(
      'reproduce needs a published file, as in reproduce class/student/lesson.html.',
    );
  const missing = positionals.find(
    (file) => !fs.statSync(file, { throwIfNoEntry: false })?.isFile(),
  );
  if (missing !== undefined)
    throw new UsageError(
      fs.existsSync(missing)
        ? `${missing} is a folder; name the pages or notebooks in it, as in reproduce class/student/*.html.`
        : `There is no file ${missing}.`,
    );
  let different = 0;
  try {
    for (const file of positionals) if (!(await reproduceOne(file, terminal))) different += 1;
  } catch (error) {
    if (error instanceof PublishError)
      throw new JobError(error.message, error.remedy, { cause: error });
    throw error;
  }
  return different === 0 ? 0 : 1;
}

export const reproduce: Command = {
  name: 'reproduce',
  summary: 'run a published page or notebook again and compare every number',
  options: {},
  help: `Usage: cocked-hat reproduce FILE...

Runs the cells of a page or notebook that publish made, with the library and the data that are
here, and compares every number and all text with what was published. Numbers printed in full may
differ by one part in 10⁹, as processors do; rounded ones must be the same. Says too whether
library or data have changed since. Cells run in a process of their own, as under mark.

Exit code: 0 if everything is the same, 1 if anything differs.

Examples
  cocked-hat reproduce class/student/2-sun-altitude-4c5cce44.html
  cocked-hat reproduce class/student/*.html`,
  run,
};
