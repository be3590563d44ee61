import fs from 'node:fs';
import path from 'node:path';
import { JobError } from '../errors.js';

/** What every notebook of format 4 has; everything else in the file is passed through untouched. */
export interface NotebookJson {
  cells: { cell_type: string; [key: string]: unknown }[];
  nbformat: number;
  [key: string]: unknown;
}

function parse(text: string, file: string): Partial<NotebookJson> {
  try {
    return JSON.parse(text) as Partial<NotebookJson>;
  } catch (error) {
    throw new JobError(
      `${file} is not a notebook: ${(error as Error).message}`,
      'open it in JupyterLab, or take an earlier copy from version control',
      { cause: error },
    );
  }
}

/** @throws JobError if the file is no notebook of format 4 */
export function readNotebook(file: string): NotebookJson {
  const notebook = parse(fs.readFileSync(file, 'utf8'), file);
  if (!Array.isArray(notebook.cells) || notebook.nbformat !== 4)
    throw new JobError(
      `${file} is not a notebook of format 4 (nbformat ${notebook.nbformat ?? 'missing'})`,
      'open it in JupyterLab and save it, which brings it to format 4',
    );
  return notebook as NotebookJson;
}

/** Writes as Jupyter does (indented by one, a newline at the end); the file is whole at every moment. */
export function writeNotebook(file: string, notebook: NotebookJson): void {
  fs.mkdirSync(path.dirname(path.resolve(file)), { recursive: true });
  const partial = `${file}.part`;
  fs.writeFileSync(partial, `${JSON.stringify(notebook, null, 1)}\n`);
  fs.renameSync(partial, file);
}
