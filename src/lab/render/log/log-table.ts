import { checkLogTable } from '../../../views/log/log-check.js';
import type { LogTableData } from '../../../log/index.js';
import { copyButton } from '../controls.js';
import { h } from '../dom.js';
import { chooseSight, onChosenSight } from '../selection.js';
import { stillView, type Services, type ViewHandle } from '../view.js';

const PAGE_ROWS = 100;

/** A sight log as a table: sorted by any column, searched, rejected readings marked. */
export function mountLog(host: HTMLElement, raw: unknown, services: Services): ViewHandle {
  const table = new LogTable(checkLogTable(raw), services);
  host.replaceChildren(table.element);
  return stillView(() => {
    table.dispose();
    host.replaceChildren();
  });
}

type Row = LogTableData['rows'][number];

class LogTable {
  readonly element: HTMLElement;
  private readonly body = h('tbody');
  private readonly count = h('p', { class: 'ch-sub', 'aria-live': 'polite' });
  private readonly more: HTMLButtonElement;
  private readonly heads: HTMLTableCellElement[];
  private readonly lines = new Map<string, HTMLTableRowElement>();
  private readonly stop: () => void;
  private sortBy = -1;
  private isDown = false;
  private words: readonly string[] = [];
  private shown = PAGE_ROWS;

  constructor(
    private readonly data: LogTableData,
    private readonly services: Services,
  ) {
    const { t } = services;
    this.heads = data.columns.map(({ head, unit, align }, i) => {
      const button = h(
        'button',
        { type: 'button', class: 'ch-link', onclick: () => this.sort(i) },
        head,
        unit ? h('span', { class: 'ch-unit' }, ` ${unit}`) : null,
      );
      return h(
        'th',
        { scope: 'col', 'aria-sort': 'none', class: align === 'right' ? 'ch-n' : null },
        button,
      );
    });
    const search = h('input', {
      type: 'search',
      'aria-label': t('Show rows that hold these words'),
      placeholder: t('Show rows that hold …'),
      oninput: () => {
        this.words = search.value.toLowerCase().split(/\s+/).filter(Boolean);
        this.shown = PAGE_ROWS;
        this.show();
      },
    });
    this.more = h(
      'button',
      {
        type: 'button',
        onclick: () => {
          this.shown += 5 * PAGE_ROWS;
          this.show();
        },
      },
      t('Show more rows'),
    );
    this.element = h(
      'section',
      { class: 'ch ch-log', 'aria-label': t('Sight log') },
      h('h3', {}, t('Sight log')),
      data.summary ? h('p', { class: 'ch-sub' }, data.summary) : null,
      h(
        'div',
        { class: 'ch-bar-row ch-screen' },
        search,
        copyButton(t('Copy as text'), t('Copied'), () => this.text()),
      ),
      this.count,
      h(
        'div',
        { class: 'ch-scroll ch-log-scroll', tabindex: 0 },
        h(
          'table',
          {},
          h('caption', { class: 'ch-hidden' }, t('Sight log')),
          h('thead', {}, h('tr', {}, ...this.heads)),
          this.body,
        ),
      ),
      this.more,
    );
    this.stop = onChosenSight((key) => {
      for (const [k, line] of this.lines) line.classList.toggle('ch-chosen', k === key);
    });
    this.show();
  }

  dispose(): void {
    this.stop();
  }

  private sort(column: number): void {
    this.isDown = this.sortBy === column ? !this.isDown : false;
    this.sortBy = column;
    this.heads.forEach((head, i) =>
      head.setAttribute(
        'aria-sort',
        i !== column ? 'none' : this.isDown ? 'descending' : 'ascending',
      ),
    );
    this.show();
  }

  private chosen(): Row[] {
    const { words, sortBy, isDown, data } = this;
    const rows = data.rows.filter((row) => {
      const text = row.cells.join(' ').toLowerCase();
      return words.every((word) => text.includes(word));
    });
    if (sortBy < 0) return rows;
    return [...rows].sort(
      (a, b) => compare(a.sort[sortBy] ?? null, b.sort[sortBy] ?? null) * (isDown ? -1 : 1),
    );
  }

  private show(): void {
    const { data } = this;
    const { t } = this.services;
    const rows = this.chosen();
    this.lines.clear();
    this.body.replaceChildren(...rows.slice(0, this.shown).map((row) => this.line(row)));
    const held = data.total > data.rows.length ? ` ${t('of')} ${data.total}` : '';
    this.count.textContent = `${rows.length} ${t('rows')}${held}`;
    this.more.hidden = rows.length <= this.shown;
  }

  private line({ cells, rejected }: Row): HTMLTableRowElement {
    const key = this.keyOf(cells);
    const line = h(
      'tr',
      { class: rejected ? 'ch-off' : null, onpointerenter: () => chooseSight(key) },
      ...cells.map((cell, i) =>
        h('td', { class: this.data.columns[i]?.align === 'right' ? 'ch-n' : null }, cell),
      ),
    );
    if (key) this.lines.set(key, line);
    return line;
  }

  /** The name a sight has in other views: body and time. */
  private keyOf(cells: readonly string[]): string | undefined {
    const at = (key: string) => this.data.columns.findIndex((c) => c.key === key);
    const [body, time] = [cells[at('body')], cells[at('utcMs')]];
    return body && time ? `${body} ${time.replace(/ ?(UTC)?$/, '')} UTC` : undefined;
  }

  private text(): string {
    const heads = this.data.columns.map(({ head, unit }) => (unit ? `${head} (${unit})` : head));
    return [heads, ...this.chosen().map((row) => row.cells)]
      .map((cells) => cells.join('\t'))
      .join('\n');
  }
}

/** Numbers before words, nothing last. */
function compare(a: number | string | null, b: number | string | null): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null);
  if (typeof a === 'number' && typeof b === 'number') return a - b;
  if (typeof a !== typeof b) return typeof a === 'number' ? -1 : 1;
  return String(a).localeCompare(String(b), 'en');
}
