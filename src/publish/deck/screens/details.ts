import { h } from '../../../lab/render/dom.js';
import { clockErrorAt, clockRemark, stamp } from '../clock-checks.js';
import { logColumn } from '../../../log/columns/log-columns.js';
import { head, key } from './keys.js';
import type { Frame, Place } from './screen.js';

/** Remarks, striking out, and what was noted with a mark. */
export function detailsScreen(frame: Frame, { id }: Place & { at: 'details' }): HTMLElement {
  const { deck } = frame;
  const mark = deck.mark(id);
  const back = () => frame.go({ at: 'reading', id });
  if (!mark)
    return h(
      'main',
      {},
      head('No such mark', () => frame.go({ at: 'sheet' })),
    );
  const number = deck.marks().findIndex((m) => m.id === id) + 1;
  const box = h('textarea', {
    id: 'remarks',
    rows: 3,
    maxlength: 500,
    oninput: () => deck.change(id, { remarks: box.value }, `remarks of mark ${number}`),
  });
  box.value = mark.remarks;
  const conditions = Object.entries(mark.conditions).filter(([, text]) => text !== '');
  return h(
    'main',
    {},
    head(`Mark ${number}`, back),
    h('label', { for: 'remarks' }, 'Remarks'),
    box,
    key(
      mark.isStruck ? 'Use this mark again' : 'Strike this mark out',
      () => {
        deck.change(id, { isStruck: !mark.isStruck }, `striking out of mark ${number}`);
        frame.refresh();
      },
      { class: 'wide' },
    ),
    h(
      'p',
      { class: 'note' },
      'What is struck out stays on the sheet and in the log, as not accepted.',
    ),
    h(
      'dl',
      {},
      h('dt', {}, 'Clock of the device'),
      h('dd', {}, stamp(mark.deviceMs)),
      h('dt', {}, 'Its error'),
      h('dd', {}, clockRemark(clockErrorAt(deck.checks(), mark.deviceMs))),
      ...conditions.flatMap(([name, text]) => [
        h('dt', {}, logColumn(name).head),
        h('dd', {}, text),
      ]),
    ),
  );
}
