import { textOf, type Cell, type Notebook, type Output } from '../../kernel/runner/notebook.js';
import type { PageCell, PageOutput } from '../client/page-data.js';
import { MIME } from '../../views/index.js';
import { isFolded, roleOf } from '../source/roles.js';

/** The cells of an executed notebook as a page carries them; raw cells, meant for other programs, stay out. */
export function pageCells(notebook: Notebook): PageCell[] {
  return notebook.cells
    .filter((cell) => cell.cell_type !== 'raw')
    .map((cell) => ({
      id: cell.id ?? '',
      kind: cell.cell_type as 'code' | 'markdown',
      role: roleOf(cell),
      source: textOf(cell.source),
      ...(isFolded(cell) ? { folded: true } : {}),
      ...(cell.attachments ? { pictures: picturesOf(cell.attachments) } : {}),
      outputs: (cell.outputs ?? []).map(pageOutput),
    }));
}

/**
 * Outputs as a page's data hold them: where a view draws itself, its other forms are left out. The still picture stands
 * in the page's text, and no page draws plots by plotly.
 */
export const carried = (outputs: readonly PageOutput[]): PageOutput[] =>
  outputs.map((output) =>
    output.type === 'data' && Object.keys(output.data).some((mime) => OWN.test(mime))
      ? { type: 'data', data: without(output.data, 'text/html', MIME.plotly) }
      : output,
  );

const OWN = /^application\/vnd\.cocked-hat\./;

const without = (data: Readonly<Record<string, unknown>>, ...left: readonly string[]) =>
  Object.fromEntries(Object.entries(data).filter(([mime]) => !left.includes(mime)));

function picturesOf(attachments: NonNullable<Cell['attachments']>): Record<string, string> {
  const entries = Object.entries(attachments).flatMap(([name, forms]) =>
    Object.entries(forms)
      .slice(0, 1)
      .map(([type, base64]) => [name, `data:${type};base64,${base64.replace(/\s/g, '')}`] as const),
  );
  return Object.fromEntries(entries);
}

function pageOutput(output: Output): PageOutput {
  switch (output.output_type) {
    case 'stream':
      return { type: 'stream', name: output.name, text: textOf(output.text) };
    case 'error':
      return { type: 'error', traceback: output.traceback.join('\n') };
    default:
      return { type: 'data', data: joined(output.data) };
  }
}

/** Notebook files keep texts as lists of lines. */
const joined = (data: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(data).map(([mime, value]) => [
      mime,
      Array.isArray(value) && value.every((line) => typeof line === 'string')
        ? value.join('')
        : value,
    ]),
  );
