import { canLeaveOut } from '../../../views/working/left-out.js';
import type {
  WorkingData,
  WorkingInputRow,
  WorkingRow,
} from '../../../views/working/working-data.js';
import { hasCorrections, hasShares } from '../../../views/working/working-text.js';
import { h } from '../dom.js';
import { ladder, rungDrawing, type Rung } from './ladder.js';
import { unbroken } from '../unbroken.js';
import type { Services } from '../view.js';

const BAR_PX = 56;
/** A value longer than this breaks into two lines instead of widening its column. */
const LONG_VALUE = 16;

export interface TableOptions {
  /** Called when a step is left out or put back; without it no step can be. */
  readonly onLeaveOut?: (rule: string, isLeftOut: boolean) => void;
}

/** The table of steps. Rows keep their elements, and so focus and what is open, while figures follow. */
export class WorkingTable {
  readonly element: HTMLTableElement;
  private readonly body = h('tbody');
  private rows: RowPair[] = [];

  constructor(
    private readonly services: Services,
    private readonly options: TableOptions = {},
  ) {
    const { t } = services;
    const head = (text: string, cls = '') => h('th', { scope: 'col', class: cls || null }, text);
    this.element = h(
      'table',
      {},
      h('caption', { class: 'ch-hidden' }),
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          head(t('Step')),
          head(t('Figures put in')),
          head(t('Correction'), 'ch-n ch-amount'),
          head(t('Ladder'), 'ch-ladder'),
          head(t('Value'), 'ch-n'),
          head(t('Share of variance'), 'ch-share'),
          head(t('Source'), 'ch-source'),
        ),
      ),
      this.body,
    );
  }

  show(data: WorkingData, leftOut: ReadonlySet<string>): void {
    this.element.caption?.replaceChildren(data.title);
    const isSame =
      this.rows.length === data.rows.length &&
      this.rows.every((row, i) => row.rule === data.rows[i]?.rule);
    if (!isSame) {
      const open = new Set(this.rows.filter((row) => row.isOpen).map((row) => row.rule));
      this.rows = data.rows.map((row) => new RowPair(row, this.services, this.options));
      this.body.replaceChildren(...this.rows.flatMap((row) => row.elements));
      for (const row of this.rows) if (open.has(row.rule)) row.toggle();
    }
    const rungs = ladder(data.rows, leftOut);
    this.element.classList.toggle(
      'ch-no-ladder',
      rungs.every((rung) => rung === null),
    );
    this.element.classList.toggle('ch-no-amounts', !hasCorrections(data));
    this.element.classList.toggle('ch-no-shares', !hasShares(data));
    this.rows.forEach((pair, i) => {
      const row = data.rows[i];
      // The caution of a single step stands below the table.
      const caution = data.rows.length > 1 ? (row?.caution ?? '') : '';
      if (row) pair.show(row, leftOut.has(row.rule), rungs[i] ?? null, caution);
    });
  }

  get isAllOpen(): boolean {
    return this.rows.every((row) => row.isOpen);
  }
  openAll(isOpen: boolean): void {
    for (const row of this.rows) if (row.isOpen !== isOpen) row.toggle();
  }
}

let serial = 0;

/** A step's line and what opens below it. */
class RowPair {
  readonly rule: string;
  private readonly id = `ch-step-${(serial += 1)}`;
  private readonly button: HTMLButtonElement;
  private readonly line: HTMLTableRowElement;
  private readonly below: HTMLTableRowElement;
  private readonly figures = h('td', { class: 'ch-figures' });
  private readonly amount = h('td', { class: 'ch-n ch-amount' });
  private readonly rung = h('td', { class: 'ch-ladder', 'aria-hidden': 'true' });
  private readonly running = h('td', { class: 'ch-n ch-running' });
  private readonly share = h('td', { class: 'ch-share' });
  private readonly formula = h('div', { class: 'ch-formula' });
  private readonly inputs = h('dl');
  private readonly sigma = h('p', { class: 'ch-sub' });
  private readonly caution = h('p', { class: 'ch-caution' });
  private readonly box: HTMLInputElement | undefined;
  private latex = '';
  private typeset = '';

  constructor(
    row: WorkingRow,
    private readonly services: Services,
    { onLeaveOut }: TableOptions,
  ) {
    const { t } = services;
    this.rule = row.rule;
    this.button = h(
      'button',
      {
        type: 'button',
        class: 'ch-step',
        'aria-expanded': 'false',
        'aria-controls': this.id,
        onclick: () => this.toggle(),
      },
      row.title,
    );
    this.line = h(
      'tr',
      { class: row.isSum ? 'ch-sum' : null, 'data-rule': row.rule },
      h('th', { scope: 'row' }, this.button),
      this.figures,
      this.amount,
      this.rung,
      this.running,
      this.share,
      h(
        'td',
        { class: 'ch-source', title: row.source },
        h('span', { class: 'ch-clamp' }, row.source),
      ),
    );
    const forget = onLeaveOut && canLeaveOut(row.rule) ? onLeaveOut : undefined;
    if (forget)
      this.box = h('input', {
        type: 'checkbox',
        onchange: (event: Event) =>
          forget(row.rule, (event.currentTarget as HTMLInputElement).checked),
      });
    this.below = h(
      'tr',
      { class: 'ch-detail', id: this.id, hidden: true },
      h(
        'td',
        { colspan: 7 },
        this.formula,
        this.inputs,
        this.sigma,
        h('p', { class: 'ch-sub' }, `${t('Source')}: ${row.source}`),
        this.caution,
        this.box
          ? h(
              'label',
              { class: 'ch-forget ch-screen' },
              this.box,
              ` ${t('What if I forgot this step?')}`,
            )
          : null,
      ),
    );
  }

  get elements(): HTMLTableRowElement[] {
    return [this.line, this.below];
  }
  get isOpen(): boolean {
    return !this.below.hidden;
  }

  toggle(): void {
    this.below.hidden = !this.below.hidden;
    this.button.setAttribute('aria-expanded', String(this.isOpen));
    this.setFormula();
  }

  show(row: WorkingRow, isLeftOut: boolean, rung: Rung | null, caution: string): void {
    this.rung.replaceChildren(...(rung ? [rungDrawing(rung)] : []));
    const { t } = this.services;
    this.figures.textContent = isLeftOut ? t('left out') : unbroken(row.figures);
    this.amount.textContent = row.correction ?? '';
    this.running.textContent = unbroken(row.running);
    this.running.classList.toggle('ch-long', row.running.length > LONG_VALUE);
    this.line.classList.toggle('ch-left-out', isLeftOut);
    if (this.box) this.box.checked = isLeftOut;
    this.share.replaceChildren(...shareOf(row));
    this.inputs.replaceChildren(...row.inputs.flatMap((input) => inputLine(input, t)));
    this.sigma.textContent =
      row.sigmaArcmin > 0
        ? `${t('Standard deviation of this step')}: ${row.sigmaArcmin.toFixed(2)}′`
        : '';
    this.caution.textContent = caution;
    if (this.typeset === '') this.formula.textContent = row.plain;
    this.latex = row.latex;
    this.setFormula();
  }

  /** Sets the formula once it is open; when the setter cannot be had its plain form stays. */
  private setFormula(): void {
    const { latex } = this;
    if (!this.isOpen || !latex || latex === this.typeset) return;
    this.typeset = latex;
    this.services.formulas().then(
      (formulas) => formulas.typeset(this.formula, latex),
      () => {},
    );
  }
}

function inputLine(input: WorkingInputRow, t: Services['t']): HTMLElement[] {
  const symbol = input.symbol ? ` (${input.symbol})` : '';
  return [
    h('dt', {}, `${input.name}${symbol}`),
    h(
      'dd',
      input.origin === 'assumed' ? { class: 'ch-assumed' } : {},
      input.text,
      h('span', { class: 'ch-source' }, ` · ${t(input.origin)}`),
    ),
  ];
}

function shareOf(row: WorkingRow): (Node | string)[] {
  if (row.sigmaArcmin === 0) return [];
  const percent = Math.round(row.varianceShare * 100);
  const bar = h('i', { 'aria-hidden': 'true' });
  bar.style.width = `${Math.max(1, Math.round(row.varianceShare * BAR_PX))}px`;
  return [bar, percent < 1 ? '< 1 %' : `${percent} %`];
}
