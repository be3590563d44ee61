import { h } from '../../../lab/render/dom.js';
import { clockErrorAt, clockErrorText, stamp, utcOf } from '../clock-checks.js';
import { markFault, readingText, targetText, type DeckMark } from '../mark.js';
import { key, markKey } from './keys.js';
import type { Frame, Place } from './screen.js';

const ROWS = 3;

/** The sheet: what is next, the last marks, and the button. */
export function sheetScreen(frame: Frame, { back = 0 }: Place & { at: 'sheet' }): HTMLElement {
  const { deck } = frame;
  const marks = deck.marks();
  const end = Math.max(Math.min(ROWS, marks.length), marks.length - back);
  const shown = marks.slice(Math.max(0, end - ROWS), end);
  const first = Math.max(0, end - ROWS);
  const move = (by: number) => frame.go({ at: 'sheet', back: Math.max(0, back + by) });
  return h(
    'main',
    { class: 'sheet' },
    h(
      'header',
      {},
      h('p', { class: 'now', role: 'timer', 'aria-label': 'UTC now' }),
      key(clockState(frame), () => frame.go({ at: 'clock' }), { class: 'state' }),
    ),
    key(`Next: ${targetText(deck.target) || 'choose the body'}`, () => frame.go({ at: 'bodies' }), {
      class: 'target',
    }),
    deck.target.body === 'Sun' ? sunCaution() : null,
    h(
      'ol',
      { class: 'marks', start: first + 1 },
      ...shown.map((mark, i) => h('li', {}, markButton(frame, mark, first + i + 1))),
    ),
    marks.length === 0
      ? h(
          'p',
          { class: 'empty' },
          'No marks yet. Choose the body, press Mark when the limb touches the horizon, then key in the reading. ',
          'This sheet only takes notes. It is no means of navigation by itself: keep the paper log, and never rely on one means of fixing.',
        )
      : null,
    h(
      'div',
      { class: 'row' },
      key('Earlier', () => move(ROWS), { disabled: first === 0 }),
      key('Later', () => move(-ROWS), { disabled: back === 0 }),
      key('Undo', () => takeBack(frame), { disabled: !deck.store.canUndo }),
      deck.store.canRedo ? key('Redo', () => doAgain(frame)) : null,
    ),
    h(
      'div',
      { class: 'row' },
      key('Conditions', () => frame.go({ at: 'session' })),
      key('Save the log', () => frame.go({ at: 'export' })),
    ),
    markKey(frame),
  );
}

/** The Sun is looked at through shades, or not at all. */
export const sunCaution = (): HTMLElement =>
  h(
    'p',
    { class: 'caution' },
    'Sun: dark shades before both mirrors first, then look. Without them it burns the eye.',
  );

function clockState({ deck }: Frame): string {
  const error = clockErrorAt(deck.checks(), Date.now());
  return error ? `clock ${clockErrorText(error.fastS)}` : 'clock not checked';
}

function markButton(frame: Frame, mark: DeckMark, number: number): HTMLElement {
  const time = stamp(utcOf(frame.deck.checks(), mark.deviceMs)).slice(11);
  const fault = markFault(mark);
  const text = `${number}  ${time}  ${targetText(mark) || 'no body'}`;
  const button = key(text, () => frame.go({ at: 'reading', id: mark.id }), {
    class: mark.isStruck ? 'struck' : fault ? 'wanting' : null,
  });
  button.append(h('b', {}, mark.isStruck ? 'struck out' : readingText(mark) || 'no reading'));
  return button;
}

function takeBack(frame: Frame): void {
  const label = frame.deck.store.undo();
  frame.say(label ? `Taken back: ${label}.` : 'Nothing to take back.');
  frame.refresh();
}
function doAgain(frame: Frame): void {
  const label = frame.deck.store.redo();
  frame.say(label ? `Done again: ${label}.` : 'Nothing to do again.');
  frame.refresh();
}
