import type { Deck } from '../deck.js';

/** Where the reader is. */
export type Place =
  | { readonly at: 'sheet'; readonly back?: number }
  | { readonly at: 'reading'; readonly id: string }
  | { readonly at: 'details'; readonly id: string }
  | { readonly at: 'bodies'; readonly id?: string; readonly page?: number }
  | { readonly at: 'clock' }
  | { readonly at: 'session'; readonly page?: number }
  | { readonly at: 'export'; readonly sheet?: string; readonly isTextShown?: boolean };

/** What a screen may do to the page around it. */
export interface Frame {
  readonly deck: Deck;
  go(place: Place): void;
  /** Draws the screen anew. */
  refresh(): void;
  say(text: string): void;
  /** A press of the mark button, at the moment that the event came. */
  markAt(event: Event): void;
  /** What the device's clock showed when the event came. */
  deviceMsOf(event: Event): number;
}
