import { h } from '../../../lab/render/dom.js';
import { stamp, utcOf } from '../clock-checks.js';
import { readingFault, readingText, targetText, type DeckMark } from '../mark.js';
import { head, key, markKey } from './keys.js';
import type { Frame, Place } from './screen.js';

/** What a key does to the digits typed so far. */
const typed = (text: string, sign: string): string =>
  sign === '°' && (text === '' || text.includes('°')) ? text : (text + sign).slice(0, 12);

/** Keys for the reading of one mark. */
export function readingScreen(frame: Frame, { id }: Place & { at: 'reading' }): HTMLElement {
  const { deck } = frame;
  const mark = deck.mark(id);
  if (!mark)
    return h(
      'main',
      {},
      head('No such mark', () => frame.go({ at: 'sheet' })),
    );
  const number = deck.marks().findIndex((m) => m.id === id) + 1;
  const change = (changes: Partial<DeckMark>) => {
    deck.change(id, changes, `reading of mark ${number}`);
    frame.refresh();
  };
  const digit = (sign: string, name?: string) =>
    key(sign, () => change({ reading: typed(mark.reading, sign) }), {
      'aria-label': name ?? null,
    });
  return h(
    'main',
    { class: 'reading' },
    head(
      `${number}  ${stamp(utcOf(deck.checks(), mark.deviceMs)).slice(11)}`,
      () => frame.go({ at: 'sheet' }),
      key('More', () => frame.go({ at: 'details', id }), { class: 'back' }),
    ),
    key(targetText(mark) || 'Choose the body', () => frame.go({ at: 'bodies', id }), {
      class: 'target',
    }),
    h(
      'p',
      { class: 'display', 'aria-live': 'polite', 'aria-label': 'Reading' },
      readingText(mark) || '–',
    ),
    h('p', { class: 'fault', role: 'status' }, readingFault(mark) ?? 'Good.'),
    h(
      'div',
      { class: 'keypad' },
      ...['7', '8', '9'].map((d) => digit(d)),
      key('Wipe', () => change({ reading: '', isOffArc: false })),
      ...['4', '5', '6'].map((d) => digit(d)),
      key('⌫', () => change({ reading: mark.reading.slice(0, -1) }), {
        'aria-label': 'Take the last figure off',
      }),
      ...['1', '2', '3'].map((d) => digit(d)),
      digit('°', 'degrees'),
      key('Off arc', () => change({ isOffArc: !mark.isOffArc }), {
        'aria-pressed': String(mark.isOffArc),
      }),
      digit('0'),
      digit('.', 'point'),
      key('Done', () => frame.go({ at: 'sheet' }), { class: 'done' }),
    ),
    markKey(frame),
  );
}
