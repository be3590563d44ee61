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
 * Whether a touch has acted whose click is still to come. The screen may change at the touch, and the click then falls on
 * the key that stands in the same place on the next one: it belongs to the touch all the same, however long that was held.
 */
let awaitsClick = false;

/**
 * A button that acts when it is touched, not when it is let go: a tenth of a second that would stand in every time.
 * Keys and screen readers, which only click, work too.
 */
export function momentKey(
  label: string,
  act: (event: Event) => void,
  props: Record<string, unknown> = {},
): HTMLButtonElement {
  return h(
    'button',
    {
      type: 'button',
      ...props,
      onpointerdown: (event: PointerEvent) => {
        if (event.button !== 0) return;
        awaitsClick = true;
        act(event);
      },
      onclick: (event: MouseEvent) => {
        // A key of the keyboard clicks without a touch before it.
        const isOfTouch = event.detail > 0 && awaitsClick;
        if (event.detail > 0) awaitsClick = false;
        if (!isOfTouch) act(event);
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
