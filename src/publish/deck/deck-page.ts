import { h } from '../../lab/render/dom.js';
import { stamp, utcOf } from './clock-checks.js';
import { Deck } from './deck.js';
import { bodiesScreen } from './screens/bodies.js';
import { clockScreen } from './screens/clock.js';
import { detailsScreen } from './screens/details.js';
import { exportScreen } from './screens/export.js';
import { readingScreen } from './screens/reading.js';
import type { Frame, Place } from './screens/screen.js';
import { sessionScreen } from './screens/session.js';
import { sheetScreen } from './screens/sheet.js';
import type { SheetStore } from './sheet-store.js';

/** After the screen changes, touches count for nothing this long: the second half of a double press would hit whatever came. From memory. */
const SETTLE_MS = 350;

/** The page of the deck sheet. */
export class DeckPage implements Frame {
  readonly deck: Deck;
  private place: Place = { at: 'sheet' };
  private settledAt = 0;
  private readonly said = h('p', { class: 'said', role: 'status' });
  private readonly trouble = h('p', { class: 'trouble', role: 'alert', hidden: true });
  private readonly screen = h('div', { class: 'screen' });

  constructor(
    private readonly root: HTMLElement,
    private readonly store: SheetStore,
  ) {
    this.deck = new Deck(store);
    root.replaceChildren(this.trouble, this.screen, this.said);
    const hold = (event: Event) => {
      if (performance.now() >= this.settledAt) return;
      event.preventDefault();
      event.stopPropagation();
    };
    // Mark stands in the same place on both its screens, and knows a double press by itself.
    const outsideMark = (event: Event) => {
      if (!(event.target instanceof Element && event.target.closest('.mark'))) hold(event);
    };
    root.addEventListener('click', outsideMark, true);
    addEventListener('storage', (event) => {
      if (store.changedElsewhere(event.key, event.newValue) && !isTyping()) this.refresh();
    });
    addEventListener('beforeunload', (event) => {
      if (store.trouble !== null && this.deck.marks().length > 0) event.preventDefault();
    });
    this.refresh();
    setInterval(() => this.showTime(), 100);
  }

  go(place: Place): void {
    this.place = place;
    this.settledAt = performance.now() + SETTLE_MS;
    this.root.setAttribute('data-settling', '');
    setTimeout(() => {
      if (performance.now() >= this.settledAt) this.root.removeAttribute('data-settling');
    }, SETTLE_MS + 5);
    this.say('');
    this.refresh();
    scrollTo(0, 0);
  }

  refresh(): void {
    const focus = document.activeElement?.textContent;
    this.screen.replaceChildren(this.shown());
    this.trouble.textContent = this.store.trouble ?? '';
    this.trouble.hidden = this.store.trouble === null;
    // A key pressed on a keyboard keeps the focus, though the screen is new.
    const same = [...this.screen.querySelectorAll('button')].find((b) => b.textContent === focus);
    same?.focus({ preventScroll: true });
    this.showTime();
  }

  private shown(): HTMLElement {
    const { place } = this;
    switch (place.at) {
      case 'sheet':
        return sheetScreen(this, place);
      case 'reading':
        return readingScreen(this, place);
      case 'details':
        return detailsScreen(this, place);
      case 'bodies':
        return bodiesScreen(this, place);
      case 'clock':
        return clockScreen(this);
      case 'session':
        return sessionScreen(this, place);
      case 'export':
        return exportScreen(this, place);
    }
  }

  say(text: string): void {
    this.said.textContent = text;
  }

  deviceMsOf(event: Event): number {
    const late = performance.now() - event.timeStamp;
    return Date.now() - (late >= 0 && late < 5000 ? late : 0);
  }

  markAt(event: Event): void {
    const deviceMs = this.deviceMsOf(event);
    const before = this.deck.marks().at(-1);
    const id = this.deck.press(deviceMs, event.timeStamp);
    if (id === null) {
      this.say('Pressed twice: taken as one mark.');
      return;
    }
    navigator.vibrate?.(60);
    this.go({ at: 'reading', id });
    if (before && before.deviceMs > deviceMs)
      this.say('The clock of the device stands earlier than at the mark before: check it.');
  }

  private showTime(): void {
    const now = this.screen.querySelector('.now');
    if (now) now.textContent = `${stamp(utcOf(this.deck.checks(), Date.now())).slice(11, 19)} UTC`;
  }
}

const isTyping = () => /^(INPUT|TEXTAREA|SELECT)$/.test(document.activeElement?.tagName ?? '');
