import { h } from '../../../lab/render/dom.js';
import { logColumn } from '../../../log/columns/log-columns.js';
import { faultOf } from '../mark.js';
import { head, key } from './keys.js';
import type { Frame, Place } from './screen.js';

const GROUPS: readonly (readonly [title: string, keys: readonly string[]])[] = [
  ['Observer', ['observer', 'instrument', 'round']],
  ['Index error', ['indexErrorArcmin']],
  ['Horizon', ['horizon', 'eyeHeightM', 'temperatureC', 'pressureHpa']],
  ['Position', ['positionKind', 'latDeg', 'lonDeg']],
  ['Course', ['courseDeg', 'speedKn']],
  ['Looks', []],
];
const EXAMPLES: Readonly<Record<string, string>> = {
  observer: 'A',
  instrument: 'the drum sextant',
  round: '2027-05-14 dawn',
  indexErrorArcmin: '1.4',
  eyeHeightM: '2.6 m',
  temperatureC: '21 °C',
  pressureHpa: '1015 hPa',
  latDeg: '15°55.2′ S',
  lonDeg: '005°43.1′ W',
  courseDeg: '312°',
  speedKn: '5.2 kn',
};
const CHOICES: Readonly<Record<string, readonly string[]>> = {
  horizon: ['natural', 'artificial'],
  positionKind: ['DR', 'known'],
};
const THEMES = ['light', 'dark', 'contrast', 'night'] as const;

/** What is noted with every mark from now on. */
export function sessionScreen(frame: Frame, { page = 0 }: Place & { at: 'session' }): HTMLElement {
  const [title, keys] = GROUPS[page] ?? GROUPS[0]!;
  return h(
    'main',
    { class: 'session' },
    head(title, () => frame.go({ at: 'sheet' })),
    ...keys.map((k) =>
      CHOICES[k]
        ? choice(frame, k)
        : k === 'indexErrorArcmin'
          ? indexField(frame, page)
          : field(frame, k),
    ),
    title === 'Looks'
      ? themes(frame)
      : h(
          'p',
          { class: 'note' },
          'Noted with every mark from now on; earlier marks keep what they have.',
        ),
    h(
      'div',
      { class: 'row wrap foot' },
      ...GROUPS.map(([name], i) =>
        key(name, () => frame.go({ at: 'session', page: i }), {
          'aria-pressed': String(i === page),
        }),
      ),
    ),
  );
}

function field(frame: Frame, name: string): HTMLElement {
  const column = logColumn(name);
  const fault = h('p', { class: 'fault', role: 'status' });
  const input = h('input', {
    id: name,
    type: 'text',
    maxlength: 60,
    autocomplete: 'off',
    placeholder: EXAMPLES[name],
    oninput: () => {
      frame.deck.note(name, input.value);
      show();
    },
  });
  const show = () => {
    const problem = input.value.trim() === '' ? null : faultOf(name, input.value.trim());
    fault.textContent = problem ?? '';
    input.setAttribute('aria-invalid', String(problem !== null));
  };
  input.value = frame.deck.conditions[name] ?? '';
  show();
  return h(
    'div',
    { class: 'field' },
    h('label', { for: name }, capital(column.head)),
    input,
    fault,
  );
}

function choice(frame: Frame, name: string): HTMLElement {
  const now = frame.deck.conditions[name] ?? '';
  return h(
    'div',
    { class: 'row', role: 'group', 'aria-label': capital(logColumn(name).head) },
    ...(CHOICES[name] ?? []).map((text) =>
      key(
        name === 'horizon' ? `${text} horizon` : text === 'known' ? 'known place' : text,
        () => {
          frame.deck.note(name, now === text ? '' : text);
          frame.refresh();
        },
        { 'aria-pressed': String(now === text) },
      ),
    ),
  );
}

const SIDED = /^(.*?)′? (on|off) the arc$/;

/** The index error: figures, and two keys for its side, because a sign means one thing to one and the other to another. */
function indexField(frame: Frame, page: number): HTMLElement {
  const name = 'indexErrorArcmin';
  const text = frame.deck.conditions[name] ?? '';
  const [, size = text.replace('′', ''), side = ''] = SIDED.exec(text) ?? [];
  const keep = (figures: string, where: string) =>
    frame.deck.note(name, figures === '' ? '' : `${figures}′${where ? ` ${where} the arc` : ''}`);
  const fault = text === '' ? '' : (faultOf(name, text) ?? '');
  const set = (figures: string, where: string) => {
    keep(figures, where);
    frame.refresh();
  };
  const digit = (sign: string) => key(sign, () => set((size + sign).slice(0, 5), side));
  return h(
    'div',
    {},
    h('p', { class: 'display', 'aria-live': 'polite', 'aria-label': 'Index error' }, text || '–'),
    h('p', { class: 'fault', role: 'status' }, fault),
    h(
      'div',
      { class: 'keypad' },
      ...['7', '8', '9'].map(digit),
      key('Wipe', () => set('', '')),
      ...['4', '5', '6'].map(digit),
      key('⌫', () => set(size.slice(0, -1), side), { 'aria-label': 'Take the last figure off' }),
      ...['1', '2', '3', '0'].map(digit),
      digit('.'),
      key('On the arc', () => set(size, 'on'), { 'aria-pressed': String(side === 'on') }),
      key('Off the arc', () => set(size, 'off'), { 'aria-pressed': String(side === 'off') }),
      key('Next', () => frame.go({ at: 'session', page: page + 1 }), { class: 'done' }),
    ),
  );
}

function themes(frame: Frame): HTMLElement {
  const root = document.documentElement;
  return h(
    'div',
    { class: 'two', role: 'group', 'aria-label': 'Theme' },
    ...THEMES.map((theme) =>
      key(
        theme === 'night' ? 'night: red on black' : theme,
        () => {
          frame.deck.store.set('theme', theme);
          root.setAttribute('data-ch-theme', theme);
          frame.refresh();
        },
        { 'aria-pressed': String(root.getAttribute('data-ch-theme') === theme) },
      ),
    ),
  );
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
