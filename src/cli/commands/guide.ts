import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { hasDisplay, openBrowser } from '../bootstrap/open-browser.mjs';
import { DIST, INSTALLED, shown } from '../bootstrap/paths.mjs';
import type { Command, Given } from '../command.js';
import { JobError, UsageError } from '../errors.js';
import { nearest } from '../../core/units/nearest-word.js';
import type { Terminal } from '../terminal.js';

/** The names of the pages that were made, without their ending. */
function pagesIn(folder: string): string[] {
  if (!fs.existsSync(folder)) return [];
  const files = fs.readdirSync(folder).filter((file) => file.endsWith('.html'));
  return files.map((file) => file.slice(0, -'.html'.length)).sort();
}

/**
 * The file of a page.
 * @throws UsageError when there is no page of that name; JobError when the guide was not made
 */
export function guidePage(name: string, folder: string = path.join(DIST, 'guide')): string {
  const pages = pagesIn(folder);
  if (pages.length === 0)
    throw new JobError(
      `The guide has not been made (${shown(folder)} is missing).`,
      'npm run build',
    );
  const reference = path.join(folder, 'api', 'index.html');
  if (name === 'library') {
    if (fs.existsSync(reference)) return reference;
    throw new JobError(
      'The reference of the library has not been made.',
      `npm run guide${INSTALLED ? ', in the folder of Cocked Hat' : ''}`,
    );
  }
  if (pages.includes(name)) return path.join(folder, `${name}.html`);
  const meant = nearest(name, pages);
  throw new UsageError(
    `The guide has no page "${name}"; ${meant ? `did you mean "${meant}"?` : `the pages are ${pages.join(', ')}.`}`,
  );
}

async function run({ values, positionals }: Given, terminal: Terminal): Promise<number> {
  if (positionals.length > 1)
    throw new UsageError(`guide opens one page, not ${positionals.length}.`);
  const address = pathToFileURL(guidePage(positionals[0] ?? 'index')).href;
  if (values['no-browser'] === true || !hasDisplay() || !(await openBrowser(address)))
    terminal.say(address);
  return 0;
}

export const guide: Command = {
  name: 'guide',
  summary: 'read the guide in the browser',
  options: { 'no-browser': { type: 'boolean' } },
  help: `Usage: cocked-hat guide [PAGE] [--no-browser]

Opens the guide: first steps, the log, the views, the methods, exercises, how the uncertainty is
worked out, data and licences, and what the words mean. It lies on this computer and needs no
network.

  PAGE          opens this page: glossary, trouble, uncertainty …; "library" is the reference of
                everything that cells can import (npm run guide makes it)
  --no-browser  prints the address and opens no browser

Examples
  cocked-hat guide
  cocked-hat guide glossary
  cocked-hat guide --no-browser`,
  run,
};
