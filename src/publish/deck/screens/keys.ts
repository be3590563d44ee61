import { h } from '../../../lab/render/dom.js';
import type { Frame } from './screen.js';

/** One touch of a wet thumb can close the contact twice: the same key again within this time is the same touch. From memory. */
const BOUNCE_MS = 90;

/** A button that does what it says. */
export function key(
  label: string,
  act: (event: Event) => void,
  props: Record<string, unknown> = {},
): HTMLButtonElement {
  let last = -Infinity;
  return h(
    'button',
    {
      type: 'button',
      ...props,
      onclick: (event: Event) => {
        if (event.timeStamp - last < BOUNCE_MS) return;
        last = event.timeStamp;
        act(event);
      },
    },
    label,
  );
}

/**
 * A button that acts when it is touched, not when it is let go: a tenth of a second that would stand in every time.
 * Keys and screen readers, which only click, work too.
 */
export function momentKey(
  label: string,
  act: (event: Event) => void,
  props: Record<string, unknown> = {},
): HTMLButtonElement {
  let touched = false;
  return h(
    'button',
    {
      type: 'button',
      ...props,
      onpointerdown: (event: PointerEvent) => {
        if (event.button !== 0) return;
        touched = true;
        act(event);
      },
      onclick: (event: Event) => {
        if (!touched) act(event);
        touched = false;
      },
    },
    label,
  );
}

/** The button that marks the moment; it stands in the same place on every screen that has it. */
export const markKey = (frame: Frame): HTMLElement =>
  momentKey('Mark', (event) => frame.markAt(event), { class: 'mark' });

/** The head of a screen: the way back, and what it is. */
export const head = (title: string, back: () => void, ...more: HTMLElement[]): HTMLElement =>
  h('header', {}, key('Back', back, { class: 'back' }), h('h1', {}, title), ...more);
