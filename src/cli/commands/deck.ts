import fs from 'node:fs';
import path from 'node:path';
import { DIST } from '../bootstrap/paths.mjs';
import type { Command, Given } from '../command.js';
import { JobError, UsageError } from '../errors.js';
import type { Terminal } from '../terminal.js';

const PAGE = path.join(DIST, 'deck', 'deck-sheet.html');

async function run({ values, positionals }: Given, terminal: Terminal): Promise<number> {
  if (positionals.length > 0)
    throw new UsageError(
      `deck takes no words; a file to write is named as in -o ${positionals[0]}.`,
    );
  const out = path.resolve(String(values['output'] ?? 'deck-sheet.html'));
  const file = fs.statSync(out, { throwIfNoEntry: false })?.isDirectory()
    ? path.join(out, 'deck-sheet.html')
    : out;
  if (!fs.existsSync(PAGE))
    throw new JobError('the deck sheet has not been built', 'npm run build');
  fs.copyFileSync(PAGE, file);
  terminal.say(`${file}: ${Math.round(fs.statSync(file).size / 1000)} kB, runs by itself`);
  return 0;
}

export const deck: Command = {
  name: 'deck',
  summary: 'write the deck sheet: a page for a phone that notes marks at the press of a button',
  options: { output: { type: 'string', short: 'o' } },
  help: `Usage: cocked-hat deck [-o FILE]

Writes one HTML file for a phone. It notes body, time and reading at the press of a button, keeps
them in the phone's browser, checks the phone's clock against a time signal, and saves a sight log
(CSV) that SightLog.fromCsv reads. It asks nothing of any network. Copy it to the phone and open
it in the browser there, or put it on a web server; save the log after every round.

It only takes notes: keep the paper log as well, and never rely on one means of fixing.

  -o, --output FILE  the file, or a folder for it; deck-sheet.html unless told

Exit code: 0 if it was written, 1 if not.

Examples
  cocked-hat deck
  cocked-hat deck -o ~/phone/deck-sheet.html`,
  run,
};
