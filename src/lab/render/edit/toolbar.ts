import { h } from '../dom.js';
import type { Services } from '../view.js';

export interface ToolActions {
  undo(): void;
  redo(): void;
  add(): void;
  takeRefused(): void;
  reject(reason: string): void;
  accept(): void;
  group(sight: string): void;
  columns(all: boolean): void;
}

/** What can be done to the log besides typing into it. */
export function toolbar({ t }: Services, actions: ToolActions) {
  const button = (label: string, onclick: () => void, props: object = {}) =>
    h('button', { type: 'button', onclick, ...props }, label);
  const undo = button(t('Undo'), () => actions.undo(), { 'aria-keyshortcuts': 'Control+Z' });
  const redo = button(t('Redo'), () => actions.redo(), { 'aria-keyshortcuts': 'Control+Y' });
  const reason = h('input', {
    type: 'text',
    'aria-label': t('Reason for not using the readings'),
    placeholder: t('reason'),
  });
  const sight = h('input', {
    type: 'text',
    'aria-label': t('Name of the sight; empty for the next free number'),
    placeholder: t('sight'),
    class: 'ch-edit-short',
  });
  const more = button(
    t('All columns'),
    () => {
      const all = more.getAttribute('aria-pressed') !== 'true';
      more.setAttribute('aria-pressed', String(all));
      actions.columns(all);
    },
    { 'aria-pressed': 'false' },
  );
  const refused = button('', () => actions.takeRefused(), { hidden: true });
  const element = h(
    'div',
    { class: 'ch-edit-tools ch-screen', role: 'toolbar', 'aria-label': t('Amend the log') },
    h(
      'span',
      { class: 'ch-bar-row' },
      undo,
      redo,
      button(t('New reading'), () => actions.add()),
      more,
      refused,
    ),
    h(
      'span',
      { class: 'ch-bar-row' },
      reason,
      button(t('Reject'), () => {
        actions.reject(reason.value);
      }),
      button(t('Use again'), () => actions.accept()),
    ),
    h(
      'span',
      { class: 'ch-bar-row' },
      sight,
      button(t('Make one sight'), () => actions.group(sight.value)),
    ),
  );
  return {
    element,
    /** Undo and redo by their usual keys, unless a field that is typed into has its own. */
    key(event: KeyboardEvent) {
      const isTyping = (event.target as HTMLElement).closest('input, textarea, select');
      if (isTyping || !(event.ctrlKey || event.metaKey)) return;
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) undo.click();
      else if (key === 'y' || (key === 'z' && event.shiftKey)) redo.click();
      else return;
      event.preventDefault();
      event.stopPropagation();
    },
    show(can: { undo: boolean; redo: boolean; refused: number }) {
      refused.hidden = can.refused === 0;
      refused.textContent = `${t('Mend refused rows')} (${can.refused})`;
      undo.disabled = !can.undo;
      redo.disabled = !can.redo;
    },
  };
}
