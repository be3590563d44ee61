import type { ResidualPoint } from '../../../views/residuals/residual-data.js';
import { RESIDUAL_HEADS, residualCells } from '../../../views/residuals/residual-text.js';
import { h } from '../dom.js';
import { chooseSight } from '../selection.js';
import type { Services } from '../view.js';

const MOST_ROWS = 500;
const NUMERIC = new Set([3, 4, 5, 6]);

/** All points as a true table; a row's first cell is a button that opens the sight. */
export class PointTable {
  readonly element: HTMLTableElement;
  private readonly body = h('tbody');
  private readonly rows = new Map<string, HTMLTableRowElement>();

  constructor(
    { t }: Services,
    private readonly onPick: (key: string) => void,
  ) {
    const heads = RESIDUAL_HEADS.map((name, i) =>
      h('th', { scope: 'col', class: NUMERIC.has(i) ? 'ch-n' : null }, t(name)),
    );
    this.element = h(
      'table',
      { class: 'ch-points' },
      h('caption', { class: 'ch-hidden' }, t('Residuals')),
      h('thead', {}, h('tr', {}, ...heads)),
      this.body,
    );
  }

  show(points: readonly ResidualPoint[]): void {
    this.rows.clear();
    this.body.replaceChildren(
      ...points.slice(0, MOST_ROWS).map((point) => {
        const [name, ...cells] = residualCells(point);
        const open = h(
          'button',
          { type: 'button', class: 'ch-link', onclick: () => this.onPick(point.key) },
          name,
        );
        const row = h(
          'tr',
          {
            class: point.isAccepted ? null : 'ch-off',
            'data-sight': point.key,
            onpointerenter: () => chooseSight(point.key),
          },
          h('th', { scope: 'row' }, open),
          ...cells.map((cell, i) => h('td', { class: NUMERIC.has(i + 1) ? 'ch-n' : null }, cell)),
        );
        this.rows.set(point.key, row);
        return row;
      }),
    );
  }

  mark(key: string | undefined): void {
    for (const [k, row] of this.rows) row.classList.toggle('ch-chosen', k === key);
  }
}
