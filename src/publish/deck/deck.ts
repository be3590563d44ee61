import { isClockCheck, type ClockCheck } from './clock-checks.js';
import { deckCsv } from './deck-csv.js';
import { isDeckMark, type Conditions, type DeckMark, type Target } from './mark.js';
import { freshId, type SheetStore } from './sheet-store.js';

/** A second press of the button within this time is the same mark: no observer takes two sights that fast. From memory. */
export const ONE_MARK_MS = 1500;

const NO_TARGET: Target = { body: '', limb: '' };

/** The sheet in hand: what the buttons do. */
export class Deck {
  private lastMarkMs = -Infinity;
  constructor(readonly store: SheetStore) {}

  marks(sheet = this.store.sheet): DeckMark[] {
    return this.store
      .items('mark', sheet)
      .filter(isDeckMark)
      .sort((a, b) => (a.id < b.id ? -1 : 1));
  }
  mark(id: string): DeckMark | undefined {
    return this.marks().find((m) => m.id === id);
  }
  checks(sheet = this.store.sheet): ClockCheck[] {
    return this.store.items('check', sheet).filter(isClockCheck);
  }
  csv(sheet = this.store.sheet): string {
    const unread = this.store.unread.map(
      ([key, text]) => `# could not be read: ${key}: ${text.replace(/\s+/g, ' ')}\r\n`,
    );
    return deckCsv(this.marks(sheet), this.checks(sheet)) + unread.join('');
  }

  /** What the next mark will be of. */
  get target(): Target {
    const kept = this.store.setting<Partial<Target>>('target', NO_TARGET);
    return typeof kept.body === 'string' && typeof kept.limb === 'string'
      ? (kept as Target)
      : NO_TARGET;
  }
  set target(target: Target) {
    this.store.set('target', target);
  }

  /** Conditions noted with the next mark; they go on from sheet to sheet. */
  get conditions(): Conditions {
    const kept = this.store.setting<Record<string, unknown>>('conditions', {});
    return Object.fromEntries(
      Object.entries(kept).filter((e): e is [string, string] => typeof e[1] === 'string'),
    );
  }
  note(key: string, text: string): void {
    this.store.set('conditions', { ...this.conditions, [key]: text });
  }

  /** Notes a mark. @returns its id, or null when the press belongs to the mark just made */
  press(deviceMs: number, uptimeMs: number): string | null {
    if (uptimeMs - this.lastMarkMs < ONE_MARK_MS) return null;
    this.lastMarkMs = uptimeMs;
    const id = freshId();
    const mark: DeckMark = {
      id,
      deviceMs,
      ...this.target,
      reading: '',
      isOffArc: false,
      conditions: this.conditions,
      remarks: '',
      isStruck: false,
    };
    this.store.put('mark', id, mark, 'mark');
    return id;
  }

  change(id: string, changes: Partial<DeckMark>, label: string): void {
    const mark = this.mark(id);
    if (mark) this.store.put('mark', id, { ...mark, ...changes }, label);
  }

  check(deviceMs: number, signalMs: number, signal: string): string {
    const id = freshId();
    this.store.put(
      'check',
      id,
      { id, deviceMs, signalMs, signal } satisfies ClockCheck,
      'clock check',
    );
    return id;
  }

  changeCheck(id: string, changes: Partial<ClockCheck>): void {
    const check = this.checks().find((c) => c.id === id);
    if (check) this.store.put('check', id, { ...check, ...changes }, 'signal minute');
  }
  forgetCheck(id: string): void {
    this.store.put('check', id, null, 'clock check');
  }

  /** A new sheet; the checks of the clock go on with it. */
  newSheet(): void {
    const checks = this.checks();
    this.store.newSheet();
    for (const check of checks) this.store.set(`${this.store.sheet}:check:${check.id}`, check);
  }
}
