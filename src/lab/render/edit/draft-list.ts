import type { SheetRow } from '../../../views/edit/sheet.js';
import { h } from '../dom.js';
import type { Services } from '../view.js';

const MOST_SHOWN = 20;

/** What was typed and is not in the log, each with the reason and the way to it. */
export function draftList(
  { t }: Services,
  goTo: (id: string, name: string) => void,
  head: (name: string) => string,
) {
  const list = h('ul', { class: 'ch-edit-open' });
  const lost = h('div');
  const title = h('p', { class: 'ch-flag' });
  const element = h('div', { hidden: true }, title, list);
  const item = (row: SheetRow) => {
    const wrong = row.findings.find((f) => f.refuse);
    const name = wrong?.name ?? Object.keys(row.drafts)[0] ?? 'utc';
    const typed = row.drafts[name];
    const who = row.id.startsWith('new') ? t('New reading') : `${t('Reading')} ${row.id}`;
    return h(
      'li',
      {},
      h(
        'button',
        { type: 'button', class: 'ch-link', onclick: () => goTo(row.id, name) },
        `${who}, ${t(head(name))}`,
      ),
      typed ? h('q', {}, typed) : null,
      ` ${wrong?.reason ?? t('Complete; goes into the log when you leave its row.')}`,
    );
  };
  return {
    element: h('div', {}, element, lost),
    show(rows: readonly SheetRow[]) {
      element.hidden = rows.length === 0;
      title.textContent = `${rows.length} ${t('not in the log yet; what was typed is kept:')}`;
      list.replaceChildren(...rows.slice(0, MOST_SHOWN).map(item));
    },
    /** Amendments kept earlier that do not fit the log as it is now. */
    misfits(found: readonly { readonly code: string; readonly reason: string }[]) {
      if (found.length === 0) return lost.replaceChildren();
      lost.replaceChildren(
        h(
          'p',
          { class: 'ch-flag', role: 'alert' },
          t('These amendments do not fit the log as it is now, and were not made:'),
        ),
        h(
          'ul',
          { class: 'ch-edit-open' },
          ...found.map((f) => h('li', {}, h('code', {}, f.code.trim()), ` ${f.reason}`)),
        ),
      );
    },
  };
}
