import type { WorkingData, WorkingInputRow, WorkingRow } from '../../../views/index.js';
import { h } from '../dom.js';
import type { Services } from '../view.js';

const BAR_PX = 56;

function inputLine(input: WorkingInputRow, t: Services['t']): HTMLElement[] {
  const symbol = input.symbol ? ` (${input.symbol})` : '';
  const assumed = input.origin === 'assumed';
  return [
    h('dt', {}, `${input.name}${symbol}`),
    h(
      'dd',
      assumed ? { class: 'ch-assumed' } : {},
      input.text,
      h('span', { class: 'ch-source' }, ` · ${t(input.origin)}`),
    ),
  ];
}

/** Sets the formula; when the setter cannot be had its plain form stays. */
function typeset(host: HTMLElement, latex: string, services: Services): void {
  if (!latex) return;
  services.formulas().then(
    (formulas) => formulas.typeset(host, latex),
    () => {},
  );
}

function detail(row: WorkingRow, id: string, { t }: Services): HTMLTableRowElement {
  const formula = h('div', { class: 'ch-formula' }, row.plain);
  const sigma =
    row.sigmaArcmin > 0
      ? h(
          'p',
          { class: 'ch-sub' },
          `${t('Standard deviation of this step')}: ${row.sigmaArcmin.toFixed(2)}′`,
        )
      : null;
  return h(
    'tr',
    { class: 'ch-detail', id },
    h(
      'td',
      { colspan: 6 },
      formula,
      h('dl', {}, ...row.inputs.flatMap((input) => inputLine(input, t))),
      sigma,
      h('p', { class: 'ch-sub' }, `${t('Source')}: ${row.source}`),
      row.caution ? h('p', { class: 'ch-caution' }, row.caution) : null,
    ),
  );
}

function share(row: WorkingRow): HTMLTableCellElement {
  const percent = Math.round(row.varianceShare * 100);
  if (row.sigmaArcmin === 0) return h('td', { class: 'ch-share' });
  const width = Math.max(1, Math.round(row.varianceShare * BAR_PX));
  const bar = h('i', { 'aria-hidden': 'true' });
  bar.style.width = `${width}px`;
  return h('td', { class: 'ch-share' }, bar, percent < 1 ? '< 1 %' : `${percent} %`);
}

let serial = 0;

/** A row, and the row that opens below it. */
function rows(row: WorkingRow, services: Services): HTMLTableRowElement[] {
  const id = `ch-step-${(serial += 1)}`;
  const below = detail(row, id, services);
  below.hidden = true;
  const button = h(
    'button',
    {
      type: 'button',
      class: 'ch-step',
      'aria-expanded': 'false',
      'aria-controls': id,
      onclick: () => {
        below.hidden = !below.hidden;
        const formula = below.querySelector<HTMLElement>('.ch-formula:not([data-set])');
        if (formula) {
          formula.dataset['set'] = '';
          typeset(formula, row.latex, services);
        }
        button.setAttribute('aria-expanded', String(!below.hidden));
      },
    },
    row.title,
  );
  const isSum = row.kind === 'rest' || row.kind === 'result';
  const line = h(
    'tr',
    { class: isSum ? 'ch-sum' : null, 'data-rule': row.rule },
    h('th', { scope: 'row' }, button),
    h('td', { class: 'ch-figures' }, row.figures),
    h('td', { class: 'ch-n ch-amount' }, row.correction),
    h('td', { class: 'ch-n ch-running' }, row.running),
    share(row),
    h('td', { class: 'ch-source' }, row.source),
  );
  return [line, below];
}

/** The steps as a page of arithmetic: a true table, each step a button that opens its formula and figures. */
export function workingTable(data: WorkingData, services: Services): HTMLTableElement {
  const { t } = services;
  const head = (text: string, cls = '') => h('th', { scope: 'col', class: cls || null }, text);
  return h(
    'table',
    {},
    h('caption', { class: 'ch-hidden' }, data.title),
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        head(t('Step')),
        head(t('Figures put in')),
        head(t('Correction'), 'ch-n'),
        head(t('Value'), 'ch-n'),
        head(t('Share of variance')),
        head(t('Source')),
      ),
    ),
    h('tbody', {}, ...data.rows.flatMap((row) => rows(row, services))),
  );
}
