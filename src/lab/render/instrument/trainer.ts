import { readingDegrees } from '../../../views/instrument/instrument-data.js';
import { judgeReading, type MisreadingKind } from '../../../views/instrument/misreading.js';
import { trainerReading } from '../../../views/instrument/trainer-reading.js';
import { h } from '../dom.js';
import type { Services } from '../view.js';
import { keep, kept } from '../keep.js';
import { DrawnSextant } from './reader.js';

export type Progress = Readonly<Partial<Record<MisreadingKind, number>>>;

const KINDS: readonly MisreadingKind[] = [
  'right',
  'whole degree',
  'drum the wrong way',
  'on and off the arc',
  'figure of the drum',
  'minute line',
  'vernier line',
  'other',
];
const progressKey = (seed: number) => `sextant-trainer:${seed}`;
const answers = (progress: Progress) => Object.values(progress).reduce((a, b) => a + b, 0);

function keptProgress(seed: number): Progress {
  const found = kept(progressKey(seed));
  if (typeof found !== 'object' || found === null) return {};
  const entries = KINDS.map((kind) => [kind, (found as Record<string, unknown>)[kind]] as const);
  return Object.fromEntries(
    entries.filter(([, n]) => Number.isSafeInteger(n) && (n as number) > 0),
  );
}

/** Read it yourself: a sextant, an answer, and the name of the misreading. */
export function trainerPane(
  seed: number,
  { t }: Services,
  onChange: () => void,
): { element: HTMLElement; dispose(): void; progress(): Progress } {
  let progress = keptProgress(seed);
  // Who comes back goes on with the reading after the last that was answered.
  let n = answers(progress);
  let shown = trainerReading(seed, n);
  const sextant = new DrawnSextant(shown, false);
  const field = h('input', {
    type: 'text',
    size: 22,
    placeholder: '34°17.6′',
    'aria-label': t('Your reading'),
  });
  const verdict = h('p', { class: 'ch-verdict', 'aria-live': 'polite' });
  const tally = h('p', { class: 'ch-sub' });
  const showTally = () => {
    const all = answers(progress);
    const slips = KINDS.slice(1).flatMap((kind) =>
      progress[kind] ? [`${t(kind)} ${progress[kind]}`] : [],
    );
    tally.textContent = all
      ? `${progress.right ?? 0} ${t('right of')} ${all}${slips.length ? `; ${slips.join(', ')}` : ''}`
      : '';
  };
  let answered = false;
  const judge = () => {
    try {
      const { kind, words } = judgeReading(shown, readingDegrees(field.value));
      verdict.textContent = words;
      verdict.className = kind === 'right' ? 'ch-verdict' : 'ch-verdict ch-flag';
      if (!answered) progress = { ...progress, [kind]: (progress[kind] ?? 0) + 1 };
      answered = true;
      keep(progressKey(seed), progress);
      showTally();
      onChange();
    } catch (error) {
      verdict.className = 'ch-verdict ch-flag';
      verdict.textContent = error instanceof Error ? error.message : String(error);
    }
  };
  const next = (to = n + 1) => {
    n = to;
    shown = trainerReading(seed, n);
    answered = false;
    field.value = '';
    verdict.textContent = '';
    verdict.className = 'ch-verdict';
    sextant.show(shown);
    field.focus();
  };
  const afresh = () => {
    progress = {};
    keep(progressKey(seed), progress);
    showTally();
    next(0);
    onChange();
  };
  const close = h('button', { type: 'button', 'aria-pressed': 'false' }, t('Close to the vernier'));
  close.addEventListener('click', () => {
    const isClose = close.getAttribute('aria-pressed') !== 'true';
    close.setAttribute('aria-pressed', String(isClose));
    sextant.setClose(isClose);
  });
  field.addEventListener('keydown', (event) => {
    event.stopPropagation();
    if (event.key === 'Enter') judge();
  });
  showTally();
  const element = h(
    'div',
    {},
    sextant.element,
    h(
      'div',
      { class: 'ch-bar-row' },
      h('label', {}, `${t('Your reading')} `, field),
      h('button', { type: 'button', onclick: judge }, t('Judge it')),
      h('button', { type: 'button', onclick: () => next() }, t('Next')),
      close,
      h('span', { class: 'ch-sub' }, t('Off the arc, write it so: 1.4′ off the arc.')),
    ),
    verdict,
    tally,
    h(
      'button',
      { type: 'button', class: 'ch-screen', onclick: afresh },
      t('Start the count afresh'),
    ),
  );
  return { element, dispose: () => sextant.dispose(), progress: () => progress };
}
