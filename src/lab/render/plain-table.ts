import type { PlainTable } from '../../views/plain-table.js';
import { h } from './dom.js';
import type { Services } from './view.js';

/** A table with its caption; first column row heads, the others figures. */
/** Figures stand right under one another; a column with any words in it reads from the left. */
const isFigure = (cell: string | undefined) => !cell || /^[–—]$|^[+−±<>≈]?\s?\d/.test(cell);

export function plainTable({ caption, heads, rows }: PlainTable, { t }: Services): HTMLElement {
  const columns = heads.map((_, i) => (rows.every((row) => isFigure(row[i])) ? 'ch-n' : null));
  return h(
    'div',
    { class: 'ch-scroll' },
    h(
      'table',
      { class: 'ch-plain' },
      caption ? h('caption', {}, t(caption)) : null,
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          ...heads.map((head, i) =>
            h('th', { scope: 'col', class: i ? (columns[i] ?? null) : null }, t(head)),
          ),
        ),
      ),
      h(
        'tbody',
        {},
        ...rows.map(([first, ...cells]) =>
          h(
            'tr',
            {},
            h('th', { scope: 'row' }, first),
            ...cells.map((cell, i) => h('td', { class: columns[i + 1] ?? null }, cell)),
          ),
        ),
      ),
    ),
  );
}
