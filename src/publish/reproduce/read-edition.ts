import fs from 'node:fs';
import { asNotebook, linesOf, type Cell, type Notebook } from '../../kernel/runner/notebook.js';
import { PublishError } from '../publish-error.js';
import { pageCells } from '../page/page-cells.js';
import type { EditionFacts, PageCell, PageData } from '../client/page-data.js';

const MOST_BYTES = 200_000_000;
const EMBEDDED = /<script type="application\/json" id="notebook">([\s\S]*?)<\/script>/;

/** What a published file carries: its facts and its cells with the outputs they had. @throws PublishError */
export function readEdition(file: string): PageData {
  const refuse = (why: string): never => {
    throw new PublishError(
      `${file} is no published edition: ${why}`,
      'name a page or a notebook that publish made',
    );
  };
  if (fs.statSync(file).size > MOST_BYTES) refuse('it is too large');
  const text = fs.readFileSync(file, 'utf8');
  try {
    const data = file.endsWith('.ipynb') ? fromNotebook(text, file) : fromPage(text);
    return data ? checked(data) : refuse('it does not carry its notebook');
  } catch (error) {
    if (error instanceof PublishError) throw error;
    return refuse((error as Error).message.slice(0, 200));
  }
}

function fromPage(text: string): PageData | undefined {
  const json = EMBEDDED.exec(text)?.[1];
  return json === undefined ? undefined : (JSON.parse(json) as PageData);
}

function fromNotebook(text: string, file: string): PageData | undefined {
  const notebook = asNotebook(JSON.parse(text), file);
  const about = notebook.metadata['cocked_hat'] as { edition?: EditionFacts } | undefined;
  return about?.edition && { edition: about.edition, cells: pageCells(notebook) };
}

/** The file may come from anyone: only what is used is let through, and it must be of its kind. */
function checked({ edition, cells }: PageData): PageData {
  const text = (value: unknown) => typeof value === 'string';
  if (!text(edition.notebook) || !text(edition.version) || !text(edition.library))
    throw new TypeError('it does not say what edition it is');
  const good = (cell: PageCell) =>
    text(cell.id) && text(cell.source) && Array.isArray(cell.outputs);
  if (!Array.isArray(cells) || !cells.every(good)) throw new TypeError('its cells cannot be read');
  return { edition, cells };
}

/** The code cells of an edition as a notebook to run. */
export function notebookOf({ cells }: PageData): Notebook {
  return {
    nbformat: 4,
    nbformat_minor: 5,
    metadata: {},
    cells: cells.map(({ id, kind, source }): Cell => {
      const cell = { id, cell_type: kind, metadata: {}, source: linesOf(source) };
      return kind === 'code' ? { ...cell, outputs: [], execution_count: null } : cell;
    }),
  };
}
