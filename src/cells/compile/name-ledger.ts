import type { NameKind } from './declared-names.js';
import type { Reference } from './scopes.js';

/**
 * What a session knows of its top-level names: how each was declared, where it is stored, and
 * whether functions of any cell use it (such a name can change while another cell runs).
 */
export class NameLedger {
  readonly #kinds = new Map<string, NameKind>();
  readonly #stored = new Map<string, string>();
  readonly #captured = new Set<string>();
  readonly #assignedByClosure = new Set<string>();

  /** `isTaken` tells whether the host itself has a global of that name, which must stay as it is. */
  constructor(private readonly isTaken: (name: string) => boolean) {}

  get names(): Iterable<string> {
    return this.#kinds.keys();
  }

  kind(name: string): NameKind | undefined {
    return this.#kinds.get(name);
  }

  /** Name of the global property that holds a cell's top-level name. */
  storage(name: string): string {
    const known = this.#stored.get(name);
    if (known) return known;
    const storage = this.isTaken(name) ? `${name}$cell` : name;
    this.#stored.set(name, storage);
    return storage;
  }

  /** The top-level name that is kept under this one; the same where none is. */
  nameOf(storage: string): string {
    const name = storage.replace(/\$cell$/, '');
    return this.#stored.get(name) === storage ? name : storage;
  }

  declare(names: ReadonlyMap<string, NameKind>): void {
    for (const [name, kind] of names) this.#kinds.set(name, kind);
  }

  forget(name: string): void {
    this.#kinds.delete(name);
  }

  noteUses(references: readonly Reference[]): void {
    for (const { closure, write, node } of references) {
      if (!closure) continue;
      this.#captured.add(node.name);
      if (write) this.#assignedByClosure.add(node.name);
    }
  }

  isCaptured(name: string): boolean {
    return this.#captured.has(name);
  }

  isAssignedByClosure(name: string): boolean {
    return this.#assignedByClosure.has(name);
  }
}
