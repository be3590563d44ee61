import type { EditionFacts, PageCell } from './page-data.js';
import { answersText, readAnswers, type AnswersFile } from './answers-file.js';

/** What came of taking answers over, and what did not. */
export interface TakenOver {
  readonly taken: number;
  /** Changed cells that this edition has corrected: they stand as in it. */
  readonly corrected: number;
}

/**
 * The reader's own copy: changed cells only, kept in this browser under the notebook and the version of the edition,
 * so that a corrected edition never hides behind an old copy. Where the browser keeps nothing, it lasts as long as the page.
 */
export class Store {
  readonly #key: string;
  readonly #copy = new Map<string, string>();
  readonly #cells: ReadonlyMap<string, PageCell>;
  /** Whether the browser keeps the copy. */
  lasting = true;

  constructor(
    private readonly facts: EditionFacts,
    cells: readonly PageCell[],
  ) {
    this.#key = `cocked-hat/${facts.notebook}/${facts.kind}`;
    this.#cells = new Map(cells.map((cell) => [cell.id, cell]));
    this.follow();
  }
  /** Takes in what was kept meanwhile, by the same page in another tab. @returns whether there was anything */
  follow(): boolean {
    const own = this.lasting ? this.#load(this.facts.version) : undefined;
    // A copy that was thrown away elsewhere stays here while this page is open.
    if (!own) return false;
    this.#copy.clear();
    this.#put(Object.entries(own.cells));
    return true;
  }
  get size(): number {
    return this.#copy.size;
  }
  /** The file of answers, as it is kept and handed in. */
  get text(): string {
    const originals = [...this.#copy.keys()].map((id) => [id, this.#cells.get(id)?.source ?? '']);
    return answersText(this.facts, this.#copy, new Map(originals as [string, string][]));
  }
  get(cell: string): string | undefined {
    return this.#copy.get(cell);
  }
  /** Keeps a changed cell; the original text takes it out again. */
  set(cell: string, source: string): void {
    this.follow();
    if (source === this.#cells.get(cell)?.source) this.#copy.delete(cell);
    else this.#copy.set(cell, source);
    this.#save();
  }
  reset(): void {
    this.#copy.clear();
    this.#save();
  }
  /** What the reader wrote last in another edition of this notebook, while nothing is written in this one. */
  earlier(): AnswersFile | undefined {
    try {
      const version = localStorage.getItem(this.#key);
      if (this.size > 0 || version === null || version === this.facts.version) return undefined;
      return this.#load(version);
    } catch {
      return undefined;
    }
  }
  /**
   * Puts answers in place of the copy. Of those to another edition, cells to answer in are taken as they are, others only where
   * their original is still the same, so that no old text hides a correction.
   */
  replace({ edition, cells, originals = {} }: AnswersFile): TakenOver {
    const known = Object.entries(cells).filter(([id]) => this.#cells.has(id));
    const taken = known.filter(([id]) => {
      const cell = this.#cells.get(id) as PageCell;
      const original = Object.hasOwn(originals, id) ? originals[id] : cell.source;
      const answers = cell.role === 'answer' || cell.role === 'name';
      return edition === this.facts.version || answers || original === cell.source;
    });
    this.#copy.clear();
    this.#put(taken);
    this.#save();
    return { taken: taken.length, corrected: known.length - taken.length };
  }

  #put(entries: readonly (readonly [string, string])[]): void {
    for (const [cell, source] of entries) this.#copy.set(cell, source);
  }
  #load(version: string): AnswersFile | undefined {
    try {
      const text = localStorage.getItem(`${this.#key}/${version}`);
      return text === null ? undefined : readAnswers(text);
    } catch {
      return undefined;
    }
  }
  #save(): void {
    const { version } = this.facts;
    try {
      if (this.size === 0) localStorage.removeItem(`${this.#key}/${version}`);
      else {
        localStorage.setItem(`${this.#key}/${version}`, this.text);
        localStorage.setItem(this.#key, version);
      }
      this.lasting = true;
    } catch {
      this.lasting = false;
    }
  }
}
