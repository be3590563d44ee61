import fs from 'node:fs';
import path from 'node:path';
import { type Notebook, notebookText } from '../../kernel/index.js';
import { otherLanguage } from '../../kernel/runner/notebook.js';
import { JobError } from '../errors.js';
import { sameButViewIds } from './same-but-view-ids.js';

function parse(text: string, file: string): Partial<Notebook> {
  try {
    return JSON.parse(text) as Partial<Notebook>;
  } catch (error) {
    throw new JobError(
      `${file} is not a notebook: ${(error as Error).message}`,
      'open it in JupyterLab, or take an earlier copy from version control',
      { cause: error },
    );
  }
}

/** @throws JobError if the file is no notebook of format 4 */
export function readNotebook(file: string): Notebook {
  const notebook = parse(fs.readFileSync(file, 'utf8'), file);
  if (!Array.isArray(notebook.cells) || notebook.nbformat !== 4)
    throw new JobError(
      `${file} is not a notebook of format 4 (nbformat ${notebook.nbformat ?? 'missing'})`,
      'open it in JupyterLab and save it, which brings it to format 4',
    );
  const other = otherLanguage(notebook as Notebook);
  if (other !== undefined)
    throw new JobError(
      `${file} is a notebook for ${other}, and cells are TypeScript here`,
      'in JupyterLab choose Kernel, Change Kernel, TypeScript · Cocked Hat, and write its cells in TypeScript',
    );
  return notebook as Notebook;
}

/**
 * Writes the file so that it is whole at every moment, old or new. A file that would change only in the identities of
 * its views stays as it is, so that version control shows no change.
 */
export function writeNotebook(file: string, notebook: Notebook): void {
  const text = notebookText(notebook);
  if (fs.existsSync(file) && sameButViewIds(fs.readFileSync(file, 'utf8'), text)) return;
  fs.mkdirSync(path.dirname(path.resolve(file)), { recursive: true });
  const partial = `${file}.part`;
  try {
    fs.writeFileSync(partial, text);
  } catch (error) {
    fs.rmSync(partial, { force: true });
    throw error;
  }
  fs.renameSync(partial, file);
}
