import type { EditData } from '../../../views/edit/edit-data.js';
import { copyButton } from '../controls.js';
import { h } from '../dom.js';
import type { Services } from '../view.js';

/** The amendments as code, and where they are. */
export function codePane(names: () => EditData, { t, codeCell }: Services) {
  const toCopy = () =>
    `${t('Copy this into a cell: it makes')} ${names().as} ${t('from')} ${names().log}.`;
  const code = h('pre', {
    class: 'ch-edit-code',
    tabindex: 0,
    'aria-label': t('Code of the amendments'),
  });
  const where = h('p', { class: 'ch-sub' });
  const element = h(
    'details',
    { class: 'ch-edit-pane' },
    h('summary', {}, t('The amendments as code')),
    where,
    code,
    h(
      'div',
      { class: 'ch-bar-row' },
      copyButton(t('Copy the code'), t('Copied'), () => code.textContent ?? ''),
    ),
  );
  element.open = codeCell === undefined;
  where.textContent = codeCell
    ? t('The first amendment makes a cell below this one; run that cell to have the amended log.')
    : toCopy();
  return {
    element,
    show(text: string, isWritten?: boolean, isKept?: boolean) {
      code.textContent = text;
      if (isWritten === undefined) return;
      const written = isWritten
        ? `${t('Written into the cell below; run it to have the amended log in')} ${names().as}.`
        : toCopy();
      where.textContent = isKept ? written : `${written} ${t('This browser keeps no drafts.')}`;
      if (!isWritten) element.open = true;
    },
  };
}
