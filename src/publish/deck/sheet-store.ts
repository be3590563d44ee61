const PREFIX = 'cocked-hat:deck:';

/** The part of the browser's storage that a sheet needs. */
export interface Cabinet {
  readonly length: number;
  key(index: number): string | null;
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

interface Step {
  readonly key: string;
  readonly from: unknown;
  readonly to: unknown;
  readonly label: string;
}

/**
 * The sheets of this browser. Every mark, check and setting is an item of its own, written at once when it changes:
 * a page that dies loses nothing, and two pages open at once do not write over each other's marks. Nothing is ever
 * removed from the browser by the sheet: what is taken back is noted as null, and former sheets stay.
 */
export class SheetStore {
  private readonly values = new Map<string, unknown>();
  private readonly done: Step[] = [];
  private readonly undone: Step[] = [];
  /** Why the browser does not keep anything, in words; null when it does. */
  trouble: string | null = null;
  /** Items of this browser that could not be read, as they stand; each is kept a second time before anything is written. */
  readonly unread: [key: string, text: string][] = [];

  constructor(
    private readonly cabinet: Cabinet | null,
    private readonly newId: () => string = freshId,
  ) {
    this.load();
  }

  private load(): void {
    if (!this.cabinet) this.trouble = NOT_KEPT;
    try {
      for (let i = 0; i < (this.cabinet?.length ?? 0); i++) {
        const key = this.cabinet?.key(i);
        if (key?.startsWith(PREFIX))
          this.take(key.slice(PREFIX.length), this.cabinet?.getItem(key));
      }
    } catch {
      this.trouble = NOT_KEPT;
    }
    for (const [key, text] of this.unread) this.write(`unread:${key}`, text);
    if (typeof this.values.get('current') !== 'string') this.write('current', this.newId());
    else this.write('probe', Date.now());
  }

  private take(key: string, text: string | null | undefined): void {
    if (text === null || text === undefined) return;
    try {
      this.values.set(key, JSON.parse(text));
    } catch {
      this.unread.push([key, text]);
    }
  }

  /** Another page of this browser changed an item. @returns whether it was one of ours */
  changedElsewhere(key: string | null, text: string | null): boolean {
    if (!key?.startsWith(PREFIX) || text === null) return false;
    this.take(key.slice(PREFIX.length), text);
    return true;
  }

  private write(key: string, value: unknown): void {
    this.values.set(key, value);
    if (!this.cabinet) return;
    try {
      this.cabinet.setItem(PREFIX + key, JSON.stringify(value));
      this.trouble = null;
    } catch {
      this.trouble = NOT_KEPT;
    }
  }

  get sheet(): string {
    return String(this.values.get('current'));
  }

  /** A setting of the page, not of a sheet. */
  setting<T>(key: string, otherwise: T): T {
    const value = this.values.get(key);
    return typeof value === typeof otherwise && value !== null ? (value as T) : otherwise;
  }
  set(key: string, value: unknown): void {
    this.write(key, value);
  }

  /** All items of one kind on a sheet, oldest first. */
  items<T>(kind: string, sheet = this.sheet): T[] {
    const start = `${sheet}:${kind}:`;
    return [...this.values]
      .filter(([key, value]) => key.startsWith(start) && value !== null)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([, value]) => value as T);
  }
  item<T>(kind: string, id: string): T | null {
    return (this.values.get(`${this.sheet}:${kind}:${id}`) ?? null) as T | null;
  }

  /** Writes an item so that it can be taken back. Steps with the same label and item that follow each other count as one. */
  put(kind: string, id: string, value: unknown, label: string): void {
    this.step(`${this.sheet}:${kind}:${id}`, value, label);
  }

  private step(key: string, to: unknown, label: string): void {
    const last = this.done.at(-1);
    const isSame = last?.key === key && last.label === label && last.from !== null;
    const from = isSame ? this.done.pop()?.from : (this.values.get(key) ?? null);
    this.done.push({ key, from, to, label });
    this.undone.length = 0;
    this.write(key, to);
  }

  /** Begins a new sheet; the one before stays in the browser. */
  newSheet(): void {
    this.step('current', this.newId(), 'new sheet');
  }

  /** @returns the label of what was taken back, or null when there is nothing */
  undo(): string | null {
    const step = this.done.pop();
    if (!step) return null;
    this.undone.push(step);
    this.write(step.key, step.from);
    return step.label;
  }
  redo(): string | null {
    const step = this.undone.pop();
    if (!step) return null;
    this.done.push(step);
    this.write(step.key, step.to);
    return step.label;
  }
  get canUndo(): boolean {
    return this.done.length > 0;
  }
  get canRedo(): boolean {
    return this.undone.length > 0;
  }

  /** Sheets before this one that hold marks, newest first. */
  formerSheets(): string[] {
    const sheets = new Set(
      [...this.values.keys()].filter((k) => k.includes(':mark:')).map((k) => k.split(':')[0] ?? ''),
    );
    return [...sheets]
      .filter((s) => s !== this.sheet && this.items('mark', s).length > 0)
      .sort()
      .reverse();
  }
}

const NOT_KEPT =
  'This browser does not keep what is noted here: save the log before you close or reload the page.';

/** An id that sorts by time and that two pages do not make alike. */
export const freshId = (): string =>
  `${Date.now().toString(36).padStart(9, '0')}-${Math.random().toString(36).slice(2, 8)}`;

/** The browser's storage, or null where it refuses. */
export function browserCabinet(): Cabinet | null {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
}
