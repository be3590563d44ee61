import type { EditionFacts } from './page-data.js';
import { answersText, readAnswers } from './answers-file.js';

/**
 * The reader's own copy: changed cells only, kept in this browser under the notebook and the version of the edition,
 * so that a corrected edition never hides behind an old copy. Where the browser keeps nothing, it lasts as long as the page.
 */
export class Store {
  readonly #key: string;
  readonly #copy: Map<string, string>;
  /** Whether the browser keeps the copy. */
  lasting = true;

  constructor(private readonly facts: EditionFacts) {
    this.#key = `cocked-hat/${facts.notebook}/${facts.kind}/${facts.version}`;
    this.#copy = this.#load();
  }
  get size(): number {
    return this.#copy.size;
  }
  get cells(): ReadonlyMap<string, string> {
    return this.#copy;
  }
  get(cell: string): string | undefined {
    return this.#copy.get(cell);
  }
  /** Keeps a changed cell; the original text takes it out again. */
  set(cell: string, source: string, original: string): void {
    if (source === original) this.#copy.delete(cell);
    else this.#copy.set(cell, source);
    this.#save();
  }
  reset(): void {
    this.#copy.clear();
    this.#save();
  }
  replace(cells: Readonly<Record<string, string>>): void {
    this.#copy.clear();
    for (const [cell, source] of Object.entries(cells)) this.#copy.set(cell, source);
    this.#save();
  }

  #load(): Map<string, string> {
    try {
      const text = localStorage.getItem(this.#key);
      return new Map(text === null ? [] : Object.entries(readAnswers(text).cells));
    } catch {
      return new Map();
    }
  }
  #save(): void {
    try {
      if (this.#copy.size === 0) localStorage.removeItem(this.#key);
      else localStorage.setItem(this.#key, answersText(this.facts, this.#copy));
      this.lasting = true;
    } catch {
      this.lasting = false;
    }
  }
}
