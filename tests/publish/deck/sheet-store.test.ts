import { describe, expect, it } from 'vitest';
import { Deck } from '../../../src/publish/deck/deck.js';
import { SheetStore, type Cabinet } from '../../../src/publish/deck/sheet-store.js';

class Drawer implements Cabinet {
  readonly items = new Map<string, string>();
  full = false;
  get length() {
    return this.items.size;
  }
  key = (i: number) => [...this.items.keys()][i] ?? null;
  getItem = (key: string) => this.items.get(key) ?? null;
  setItem(key: string, value: string) {
    if (this.full) throw new DOMException('full', 'QuotaExceededError');
    this.items.set(key, value);
  }
}
const deckOn = (drawer: Cabinet | null) => new Deck(new SheetStore(drawer));

describe('what a deck sheet keeps', () => {
  it('is there again for the next page, mark for mark, without any closing', () => {
    const drawer = new Drawer();
    const deck = deckOn(drawer);
    deck.target = { body: 'Sun', limb: 'lower' };
    deck.note('observer', 'A');
    const id = deck.press(1_800_000_000_000, 5000) as string;
    deck.change(id, { reading: '41°18.6' }, 'reading');
    deck.check(1_800_000_060_300, 1_800_000_060_000, 'GNSS receiver');
    const again = deckOn(drawer);
    expect(again.marks()).toEqual(deck.marks());
    expect(again.marks()[0]).toMatchObject({ reading: '41°18.6', body: 'Sun' });
    expect(again.marks()[0]?.conditions['observer']).toBe('A');
    expect(again.checks()).toEqual(deck.checks());
    expect(again.target).toEqual(deck.target);
  });

  it('counts a second press within a second and a half as the same mark', () => {
    const deck = deckOn(new Drawer());
    expect(deck.press(1000, 10_000)).not.toBeNull();
    expect(deck.press(1400, 10_400)).toBeNull();
    expect(deck.press(3000, 12_000)).not.toBeNull();
    expect(deck.marks()).toHaveLength(2);
  });

  it('takes back and does again, one mark or one whole reading at a time', () => {
    const deck = deckOn(new Drawer());
    const id = deck.press(1000, 10_000) as string;
    for (const reading of ['4', '41', '41°', '41°1']) deck.change(id, { reading }, 'reading');
    expect(deck.store.undo()).toBe('reading');
    expect(deck.mark(id)?.reading).toBe('');
    expect(deck.store.undo()).toBe('mark');
    expect(deck.marks()).toEqual([]);
    expect(deck.store.undo()).toBeNull();
    deck.store.redo();
    deck.store.redo();
    expect(deck.mark(id)?.reading).toBe('41°1');
  });

  it('leaves the former sheet where it is when a new one is begun, with the checks of the clock carried on', () => {
    const deck = deckOn(new Drawer());
    deck.press(1000, 10_000);
    deck.check(60_300, 60_000, 'GNSS receiver');
    const first = deck.store.sheet;
    deck.newSheet();
    expect(deck.marks()).toEqual([]);
    expect(deck.checks()).toHaveLength(1);
    expect(deck.store.formerSheets()).toEqual([first]);
    expect(deck.csv(first)).toContain('# mark 1, not complete');
    expect(deck.store.undo()).toBe('new sheet');
    expect(deck.marks()).toHaveLength(1);
  });

  it('shares one browser with a second page: neither writes over the other’s marks', () => {
    const drawer = new Drawer();
    const one = deckOn(drawer);
    const two = deckOn(drawer);
    one.press(1000, 10_000);
    two.press(2000, 10_000);
    expect(deckOn(drawer).marks()).toHaveLength(2);
  });

  it.each([
    ['full', () => Object.assign(new Drawer(), { full: true })],
    ['absent', () => null],
  ])('works on with a warning while the storage is %s', (_, drawer) => {
    const deck = deckOn(drawer());
    deck.press(1000, 10_000);
    expect(deck.marks()).toHaveLength(1);
    expect(deck.store.trouble).toContain('save the log before you close');
  });

  it('keeps an item that it cannot read, and hands it out with the log', () => {
    const drawer = new Drawer();
    const deck = deckOn(drawer);
    deck.press(1000, 10_000);
    const key = [...drawer.items.keys()].find((k) => k.includes(':mark:')) as string;
    drawer.items.set(key, '{"id":"x","deviceMs":17');
    const again = deckOn(drawer);
    expect(again.marks()).toEqual([]);
    expect(again.csv()).toContain('"deviceMs":17');
    expect([...drawer.items.values()].some((v) => v.includes('deviceMs\\":17'))).toBe(true);
  });
});
