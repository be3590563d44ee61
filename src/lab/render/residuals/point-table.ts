import type { ResidualPoint } from '../../../views/residuals/residual-data.js';
import { residualColumns } from '../../../views/residuals/residual-text.js';
import { h } from '../dom.js';
import { chooseSight } from '../selection.js';
import type { Services } from '../view.js';

const MOST_ROWS = 500;

/** All points as a true table; a row's first cell is a button that opens the sight. */
export class PointTable {
  readonly element: HTMLTableElement;
  private readonly heads = h('tr');
  private readonly body = h('tbody');
  private readonly rows = new Map<string, HTMLTableRowElement>();

  constructor(
    private readonly services: Services,
    private readonly onPick: (key: string) => void,
  ) {
    this.element = h(
      'table',
      { class: 'ch-points' },
      h('caption', { class: 'ch-hidden' }, services.t('Residuals')),
      h('thead', {}, this.heads),
      this.body,
    );
  }

  show(points: readonly ResidualPoint[]): void {
    const [first, ...others] = residualColumns(points);
    this.heads.replaceChildren(
      ...[first!, ...others].map(({ head, isFigure }) =>
        h('th', { scope: 'col', class: isFigure ? 'ch-n' : null }, this.services.t(head)),
      ),
    );
    this.rows.clear();
    this.body.replaceChildren(
      ...points.slice(0, MOST_ROWS).map((point) => {
        const open = h(
          'button',
          { type: 'button', class: 'ch-link', onclick: () => this.onPick(point.key) },
          first!.cell(point),
        );
        const row = h(
          'tr',
          {
            class: point.isAccepted ? null : 'ch-off',
            'data-sight': point.key,
            onpointerenter: () => chooseSight(point.key),
          },
          h('th', { scope: 'row' }, open),
          ...others.map(({ cell, isFigure }) =>
            h('td', { class: isFigure ? 'ch-n' : null }, cell(point)),
          ),
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
