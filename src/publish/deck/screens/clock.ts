import { h } from '../../../lab/render/dom.js';
import { checkedMoments, clockErrorText, nearestMinute, stamp } from '../clock-checks.js';
import { head, key, momentKey } from './keys.js';
import type { Frame } from './screen.js';

const SIGNALS = [
  'radio time signal',
  'GNSS receiver',
  'telephone time signal',
  'chronometer of known error',
] as const;

/** Checks the device's clock against a signal at a full minute. */
export function clockScreen(frame: Frame): HTMLElement {
  const { deck } = frame;
  const checks = deck.checks();
  const last = checks.at(-1);
  const select = h(
    'select',
    { id: 'signal', onchange: () => deck.store.set('signal', select.value) },
    ...SIGNALS.map((text) => h('option', { value: text }, text)),
  );
  const kept = deck.store.setting('signal', SIGNALS[0] as string);
  select.value = (SIGNALS as readonly string[]).includes(kept) ? kept : SIGNALS[0];
  const press = (event: Event) => {
    const deviceMs = frame.deviceMsOf(event);
    if (last && Math.abs(deviceMs - last.deviceMs) < 1500) return;
    deck.check(deviceMs, nearestMinute(deviceMs), select.value);
    frame.refresh();
  };
  const shift = (ms: number) => {
    if (last) deck.changeCheck(last.id, { signalMs: last.signalMs + ms });
    frame.refresh();
  };
  return h(
    'main',
    { class: 'clock' },
    head('Clock check', () => frame.go({ at: 'sheet' })),
    h('p', { class: 'now', role: 'timer', 'aria-label': 'UTC now' }),
    h('label', { for: 'signal' }, 'The time comes from'),
    select,
    h(
      'p',
      { class: 'note' },
      'Press at the beginning of a minute, as the signal gives it. Two or three presses, minute after minute, count as their mean.',
    ),
    last
      ? h(
          'div',
          {},
          h(
            'p',
            { class: 'display small' },
            `${stamp(last.signalMs).slice(11, 16)} UTC: ${clockErrorText((last.deviceMs - last.signalMs) / 1000)}`,
          ),
          h(
            'div',
            { class: 'row gap' },
            key('− 1 min', () => shift(-60_000), { 'aria-label': 'Signal was a minute earlier' }),
            key('+ 1 min', () => shift(60_000), { 'aria-label': 'Signal was a minute later' }),
            key('− 1 h', () => shift(-3_600_000), { 'aria-label': 'Signal was an hour earlier' }),
            key('+ 1 h', () => shift(3_600_000), { 'aria-label': 'Signal was an hour later' }),
          ),
          key(
            'Forget this press',
            () => {
              deck.forgetCheck(last.id);
              frame.refresh();
            },
            { class: 'wide' },
          ),
        )
      : h('p', { class: 'display small' }, 'not checked'),
    h(
      'ul',
      { class: 'moments' },
      ...checkedMoments(checks)
        .slice(-2)
        .map((m) =>
          h(
            'li',
            {},
            `${stamp(m.signalMs).slice(0, -5)} UTC, ${m.signal}: ${clockErrorText(m.fastS)}${
              m.presses > 1 ? `, ${m.presses} presses within ${m.spreadS.toFixed(1)} s` : ''
            }`,
          ),
        ),
    ),
    momentKey('The minute begins', press, { class: 'mark' }),
  );
}
