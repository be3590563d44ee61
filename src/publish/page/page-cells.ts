import { textOf, type Notebook, type Output } from '../../kernel/runner/notebook.js';
import type { PageCell, PageOutput } from '../client/page-data.js';
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
      outputs: (cell.outputs ?? []).map(pageOutput),
    }));
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
