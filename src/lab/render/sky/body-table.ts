import type { BodyName } from '../../../core/sky/index.js';
import type { DeckRow } from '../../../views/sky/deck-table.js';
import { clock } from '../../../views/sky/sky-text.js';
import { h } from '../dom.js';
import type { Services } from '../view.js';

export interface BodyTableActions {
  readonly onTake: (body: BodyName, isTaken: boolean) => void;
  readonly onPoint: (body: BodyName | undefined) => void;
}

const GROUPS: readonly (readonly [DeckRow['group'], string])[] = [
  ['set', 'The set, in the order to take it'],
  ['reach', 'Also in reach'],
  ['beyond', 'Too low or too high'],
];

/** The table to take on deck: a tick says whether a body may be taken; on paper there is room for time and reading. */
export function bodyTable(
  rows: readonly DeckRow[],
  times: readonly number[],
  atMs: number,
  hidden: readonly BodyName[],
  { t }: Services,
  actions: BodyTableActions,
): HTMLElement {
  const figures = times.map((ms) =>
    h(
      'th',
      { scope: 'col', class: ms === atMs ? 'ch-n ch-sky-now' : 'ch-n ch-sky-other' },
      `${t('Set at')} ${clock(ms)}`,
    ),
  );
  const paper = (name: string) => h('th', { scope: 'col', class: 'ch-paper' }, t(name));
  const columns = 7 + times.length;
  const head = h(
    'tr',
    {},
    h('th', { scope: 'col', class: 'ch-screen' }, t('Take')),
    h('th', { scope: 'col' }, t('Body')),
    h('th', { scope: 'col', class: 'ch-n' }, t('Azimuth T')),
    ...figures,
    h('th', { scope: 'col', class: 'ch-n' }, t('Magnitude')),
    paper('Time'),
    paper('Reading'),
    h('th', { scope: 'col', class: 'ch-screen' }, t('Remark')),
  );
  const bodies = GROUPS.flatMap(([group, name]) => {
    const inGroup = rows.filter((r) => r.group === group);
    if (inGroup.length === 0) return [];
    return [
      h(
        'tbody',
        { class: `ch-sky-${group}` },
        h(
          'tr',
          {},
          h('th', { scope: 'rowgroup', colspan: columns, class: 'ch-sky-group' }, t(name)),
        ),
        ...inGroup.map((r) => row(r, times, atMs, hidden, t, actions)),
      ),
    ];
  });
  return h(
    'div',
    { class: 'ch-scroll' },
    h(
      'table',
      { class: 'ch-sky-table' },
      h('caption', { class: 'ch-hidden' }, t('To take on deck')),
      h('thead', {}, head),
      ...bodies,
    ),
  );
}

function row(
  r: DeckRow,
  times: readonly number[],
  atMs: number,
  hidden: readonly BodyName[],
  t: Services['t'],
  { onTake, onPoint }: BodyTableActions,
): HTMLElement {
  const take = h('input', {
    type: 'checkbox',
    'aria-label': `${t('Take')} ${r.body}`,
    checked: !hidden.includes(r.body),
    'data-take': r.body,
    onchange: () => onTake(r.body, take.checked),
  });
  return h(
    'tr',
    {
      'data-body': r.body,
      class: hidden.includes(r.body) ? 'ch-off' : null,
      onpointerenter: () => onPoint(r.body),
      onpointerleave: () => onPoint(undefined),
    },
    h('td', { class: 'ch-screen' }, r.group === 'beyond' ? null : take),
    h('th', { scope: 'row' }, r.number === null ? r.name : `${r.number} ${r.name}`),
    h('td', { class: 'ch-n' }, r.azimuth),
    ...r.presets.map((text, i) =>
      h('td', { class: times[i] === atMs ? 'ch-n ch-sky-now' : 'ch-n ch-sky-other' }, text),
    ),
    h('td', { class: 'ch-n' }, r.magnitude),
    h('td', { class: 'ch-paper' }),
    h('td', { class: 'ch-paper' }),
    h('td', { class: 'ch-screen ch-sub ch-sky-remark' }, t(r.reason)),
  );
}
