import type { PlainTable } from '../../views/plain-table.js';
import { h } from './dom.js';
import type { Services } from './view.js';

/** A table with its caption; first column row heads, the others figures. */
export function plainTable({ caption, heads, rows }: PlainTable, { t }: Services): HTMLElement {
  return h(
    'div',
    { class: 'ch-scroll' },
    h(
      'table',
      { class: 'ch-plain' },
      h('caption', {}, t(caption)),
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          ...heads.map((head, i) => h('th', { scope: 'col', class: i ? 'ch-n' : null }, t(head))),
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
            ...cells.map((cell) => h('td', { class: 'ch-n' }, cell)),
          ),
        ),
      ),
    ),
  );
}
