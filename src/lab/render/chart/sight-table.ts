import type { ChartFigures, ChartModel } from '../../../views/chart/chart-model.js';
import { fixRow } from '../../../views/chart/chart-text.js';
import { h } from '../dom.js';
import { chooseSight } from '../selection.js';
import type { Services } from '../view.js';

interface Row {
  readonly line: HTMLTableRowElement;
  readonly box: HTMLInputElement;
  readonly cells: readonly HTMLTableCellElement[];
  readonly bar: HTMLElement;
  readonly percent: HTMLElement;
}

const BAR_PX = 60;

/** The sights of a fix: a switch for each, and how it stands in the fix. Elements stay while figures follow. */
export class SightTable {
  readonly element: HTMLTableElement;
  private readonly rows = new Map<string, Row>();

  constructor(model: ChartModel, { t }: Services, onSwitch: (key: string, isOff: boolean) => void) {
    const numbers = [
      t('UTC'),
      t('Azimuth'),
      t('Intercept'),
      t('Residual'),
      t('Standardised'),
    ] as const;
    const head = h(
      'tr',
      {},
      h('th', { scope: 'col' }, t('In the fix')),
      h('th', { scope: 'col' }, t('Body')),
      ...numbers.map((name) => h('th', { scope: 'col', class: 'ch-n' }, name)),
      h('th', { scope: 'col' }, t('Share of the fix')),
    );
    const lines = model.observations.map(({ key, observation }) => {
      const box = h('input', {
        type: 'checkbox',
        'aria-label': `${observation.body} ${observation.instant.toSecond().slice(11, 19)}`,
        onchange: () => onSwitch(key, !box.checked),
      });
      const cells = numbers.map(() => h('td', { class: 'ch-n' }));
      const bar = h('i', { 'aria-hidden': 'true' });
      const percent = h('span');
      const line = h(
        'tr',
        {
          'data-sight': key,
          onpointerenter: () => chooseSight(key),
          onpointerleave: () => chooseSight(undefined),
          onfocusin: () => chooseSight(key),
        },
        h('td', {}, box),
        h('th', { scope: 'row' }, observation.body),
        ...cells,
        h('td', { class: 'ch-share' }, bar, percent),
      );
      this.rows.set(key, { line, box, cells, bar, percent });
      return line;
    });
    this.element = h(
      'table',
      { class: 'ch-sights' },
      h('caption', { class: 'ch-hidden' }, t('Sights of the fix')),
      h('thead', {}, head),
      h('tbody', {}, ...lines),
    );
  }

  show(figures: ChartFigures, model: ChartModel, off: ReadonlySet<string>): void {
    for (const { key, observation } of model.observations) {
      const row = this.rows.get(key);
      if (!row) continue;
      const isOff = off.has(key);
      const i = figures.keys.indexOf(key);
      const found = figures.fix && i >= 0 ? fixRow(figures.fix, i) : undefined;
      const time = observation.instant.toSecond().slice(11, 19);
      const texts = found
        ? [time, found.azimuth, found.intercept, found.residual, found.standardised]
        : [time, '', '', '', ''];
      row.box.checked = !isOff;
      row.line.classList.toggle('ch-off', isOff);
      row.cells.forEach((cell, k) => {
        cell.textContent = texts[k] ?? '';
      });
      row.bar.style.width = `${Math.round((found?.share ?? 0) * BAR_PX)}px`;
      row.percent.textContent = found ? `${Math.round(found.share * 100)} %` : '';
    }
  }

  mark(key: string | undefined): void {
    for (const [k, { line }] of this.rows) line.classList.toggle('ch-chosen', k === key);
  }
}
