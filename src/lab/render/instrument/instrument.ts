import {
  checkInstrumentData,
  type InstrumentData,
} from '../../../views/instrument/instrument-data.js';
import { ARC_LEAST_DEG, ARC_MOST_DEG } from '../../../views/instrument/drum-pose.js';
import { h } from '../dom.js';
import { saveDrawingButtons } from '../save.js';
import { liveView, type Services, type ViewHandle, type ViewState } from '../view.js';
import { checkPane } from './check-pane.js';
import { readerPane } from './reader.js';
import { trainerPane } from './trainer.js';

type Pane = InstrumentData['open'];

/** The sextant view: reading, practice, index check. @throws ViewDataError */
export function mountInstrument(host: HTMLElement, raw: unknown, services: Services): ViewHandle {
  const data = checkInstrumentData(raw);
  const { t } = services;
  const listeners = new Set<(state: ViewState) => void>();
  let readingDeg = data.readingDeg;
  let open = data.open;
  const tell = () => listeners.forEach((listener) => listener(state()));
  const reader = readerPane(readingDeg, services, (at) => {
    readingDeg = at;
    tell();
  });
  const trainer = trainerPane(data.seed, services, tell);
  const state = (): ViewState => ({ readingDeg, open, progress: trainer.progress() });
  const panes: Readonly<Record<Pane, HTMLElement>> = {
    reading: h(
      'div',
      {},
      reader.element,
      h(
        'div',
        { class: 'ch-bar-row ch-screen' },
        ...saveDrawingButtons(() => reader.sextant.svg, 'sextant', services),
      ),
    ),
    trainer: trainer.element,
    check: checkPane(data, services),
  };
  const names: readonly (readonly [Pane, string])[] = [
    ['reading', t('Read the sextant')],
    ['trainer', t('Read it yourself')],
    ['check', t('Index check and mirrors')],
  ];
  const buttons = names.map(([pane, name]) =>
    h('button', { type: 'button', onclick: () => (choose(pane), tell()) }, name),
  );
  const choose = (pane: Pane) => {
    open = pane;
    names.forEach(([key], i) => {
      panes[key].hidden = key !== pane;
      buttons[i]?.setAttribute('aria-pressed', String(key === pane));
    });
  };
  host.replaceChildren(
    h(
      'section',
      { class: 'ch ch-instrument', 'aria-label': t('Sextant') },
      h(
        'div',
        { class: 'ch-bar-row ch-screen', role: 'group', 'aria-label': t('What to do') },
        ...buttons,
      ),
      ...Object.values(panes),
    ),
  );
  choose(open);
  return liveView(data.viewId, listeners, {
    state,
    set(given) {
      const { readingDeg: at, open: pane } = (given ?? {}) as Record<string, unknown>;
      const chosen = names.find(([key]) => key === pane);
      if (chosen) choose(chosen[0]);
      if (typeof at !== 'number' || !(at >= ARC_LEAST_DEG && at <= ARC_MOST_DEG)) return;
      readingDeg = at;
      reader.show(at);
    },
    dispose() {
      reader.sextant.dispose();
      trainer.dispose();
      host.replaceChildren();
    },
  });
}
