import { counted } from '../../../core/units/counted.js';
import { h } from '../../../lab/render/dom.js';
import { download } from '../../../lab/render/save.js';
import { stamp } from '../clock-checks.js';
import { markFault } from '../mark.js';
import { head, key } from './keys.js';
import type { Frame, Place } from './screen.js';

/** Saves the sheet as a sight log, and begins a new one. */
export function exportScreen(frame: Frame, place: Place & { at: 'export' }): HTMLElement {
  const { deck } = frame;
  const sheet = place.sheet ?? deck.store.sheet;
  const isCurrent = sheet === deck.store.sheet;
  const marks = deck.marks(sheet);
  const partial = marks.filter((m) => markFault(m) !== null).length;
  const csv = () => deck.csv(sheet);
  const former = deck.store.formerSheets();
  const at = former.indexOf(sheet);
  const older = former[at + 1];
  return h(
    'main',
    { class: 'export' },
    head(isCurrent ? 'Save the log' : `Sheet of ${day(marks[0]?.deviceMs)}`, () =>
      frame.go({ at: 'sheet' }),
    ),
    h(
      'p',
      {},
      `${counted(marks.length - partial, 'row')} for the sight log${
        partial
          ? `; ${counted(partial, 'mark')} without body or reading, kept at the end as comments`
          : ''
      }.`,
    ),
    key(
      'Save as CSV',
      () => {
        download(`deck-sheet-${day(marks[0]?.deviceMs)}.csv`, csv(), 'text/csv');
        frame.say('Saved. The sheet stays here as well.');
      },
      { class: 'wide' },
    ),
    key(
      'Show as text to copy',
      () => frame.go({ at: 'export', sheet, isTextShown: place.isTextShown !== true }),
      { class: 'wide' },
    ),
    place.isTextShown ? textBox(frame, csv()) : null,
    isCurrent
      ? key(
          'Begin a new sheet',
          () => {
            deck.newSheet();
            frame.say('A new sheet. The one before is kept; Undo brings it back.');
            frame.go({ at: 'sheet' });
          },
          { class: 'wide', disabled: marks.length === 0 },
        )
      : null,
    older
      ? key('Sheet before this', () => frame.go({ at: 'export', sheet: older }), { class: 'wide' })
      : null,
    h(
      'p',
      { class: 'note' },
      'Marks are kept in this browser only, on this device. A browser told to clear its data clears them too: save after every round.',
    ),
  );
}

function textBox(frame: Frame, csv: string): HTMLElement {
  const box = h('textarea', { readonly: true, rows: 6, 'aria-label': 'The log as text' });
  box.value = csv;
  const copy = key('Copy', async () => {
    box.select();
    const isCopied = await navigator.clipboard?.writeText(csv).then(
      () => true,
      () => false,
    );
    frame.say(isCopied ? 'Copied.' : 'The text is selected: copy it with your device’s own menu.');
  });
  return h('div', {}, box, copy);
}

const day = (ms: number | undefined) => stamp(ms ?? Date.now()).slice(0, 10);
