import {
  bundleOf,
  CellSyntaxError,
  compileCell,
  compileExpression,
  NameLedger,
  type Bundle,
  type CellSession,
  type MappedCell,
} from '../../cells/index.js';
import type { Variable } from './protocol.js';
import { partsOf, textOf, type Part } from './value-parts.js';

const globals = globalThis as unknown as Record<string, unknown>;

/** A cell compiled without being run, so that V8 can say where it could stop. */
export interface TrialCell extends MappedCell {
  readonly js: string;
}

export type Compiled = { readonly js: string } | { readonly error: string };

/**
 * What the debugger asks in the thread that runs cells, where the values are. The front calls it
 * through V8's inspector, as `__cell.debug`, also while that thread is stopped.
 */
export class CellsView {
  /** What the client may ask to look into, by its reference. */
  readonly #held = new Map<number, () => readonly Variable[]>();
  #lastReference = 0;
  #thrown: Part | null = null;

  constructor(private readonly session: CellSession) {}

  cell(file: string): MappedCell | null {
    return this.session.cells.mapped(file);
  }

  filesOf(source: string): string[] {
    return this.session.cells.filesOf(source);
  }

  /** Null for a cell that cannot be compiled. */
  trial(source: string): TrialCell | null {
    try {
      const { js, map } = compileCell(source, new NameLedger(() => false));
      return { source, js, ...map.mappings() };
    } catch (error) {
      if (error instanceof CellSyntaxError) return null;
      throw error;
    }
  }

  /** Lets go of all values held for the client. */
  release(): void {
    this.#held.clear();
    this.#thrown = null;
  }

  /** Keeps what was thrown where the thread stands, to be listed with the names of that frame. */
  keepThrown(value: unknown): void {
    this.#thrown = { name: '(thrown)', path: '', value };
  }

  /** Reference of the names that cells have set. */
  globals(): number {
    return this.#hold(() => this.#grouped(this.#cellNames()));
  }

  /** Names in scopes of a frame, each once. */
  names(...scopes: readonly object[]): string[] {
    const names = new Set(scopes.flatMap((scope) => Object.keys(scope)));
    return [...names].filter((name) => name !== 'arguments' && IDENTIFIER.test(name));
  }

  /**
   * Reference of a frame's names. A name that has no value yet is left out; `listed` says what is listed
   * besides: what was thrown, `this`, the names of all cells.
   */
  frame(listed: Listed, readers: Readers, receiver: () => unknown): number {
    const parts = new Map<string, Part>();
    const add = (part: Part): void => {
      if (!parts.has(part.name)) parts.set(part.name, part);
    };
    if (listed.thrown && this.#thrown) add(this.#thrown);
    const self = listed.receiver ? read(receiver) : null;
    if (self && self.value !== undefined && self.value !== globalThis)
      add({ name: 'this', path: 'this', ...self });
    for (const [storage, reader] of Object.entries(readers)) {
      const name = this.session.ledger.nameOf(storage);
      const held = read(reader);
      if (held) add({ name, path: name, ...held });
    }
    if (listed.cells) this.#cellNames().forEach(add);
    return this.#hold(() => this.#grouped([...parts.values()]));
  }

  /** The variables behind a reference; null where none is held. */
  variables(reference: number): readonly Variable[] | null {
    return this.#held.get(reference)?.() ?? null;
  }

  /** Statements as they can be evaluated in a frame that binds these names. */
  expression(source: string, bound: readonly string[]): Compiled {
    try {
      return { js: compileExpression(source, this.session.ledger, new Set(bound)) };
    } catch (error) {
      if (error instanceof CellSyntaxError)
        return { error: `SyntaxError: ${error.message} (${error.line}:${error.column})` };
      throw error;
    }
  }

  /** A value as the answer to `evaluate`. */
  result(value: unknown, source: string): Variable {
    return this.#variable({ name: source, path: source, value });
  }

  /** Sets a name for all cells, as if one had declared it. */
  copy(name: string, value: unknown): Variable {
    this.session.adopt(name, value);
    return this.#variable({ name, path: name, value });
  }

  /** How a cell would show the value; a value that shows itself later, as text. */
  async bundle(value: unknown): Promise<Bundle> {
    return bundleOf(value);
  }

  bundleNow(value: unknown): Bundle {
    const bundle = bundleOf(value);
    return bundle instanceof Promise
      ? { data: { 'text/plain': textOf(value) }, metadata: {} }
      : bundle;
  }

  /** Gives the names that a loop keeps in its scope to the session, where all other code finds them. */
  shareLoopLocals(readers: Readers): void {
    for (const [storage, reader] of Object.entries(readers)) {
      const held = read(reader);
      if (held) globals[storage] = held.value;
    }
  }

  #cellNames(): Part[] {
    const { ledger } = this.session;
    return [...ledger.names].map((name) => ({
      name,
      path: name,
      value: globals[ledger.storage(name)],
    }));
  }

  /** Functions stand in a group of their own: most are imported, and they would hide the rest. */
  #grouped(parts: readonly Part[]): Variable[] {
    const functions = parts.filter(({ value }) => typeof value === 'function');
    const others = parts.filter(({ value }) => typeof value !== 'function');
    const variables = others.map((part) => this.#variable(part));
    if (functions.length === 0) return variables;
    const variablesReference = this.#hold(() => functions.map((part) => this.#variable(part)));
    return [...variables, { name: FUNCTIONS, value: '', evaluateName: '', variablesReference }];
  }

  #variable({ name, path, value }: Part): Variable {
    const inside = partsOf(value, path);
    const variablesReference = inside
      ? this.#hold(() => inside().map((part) => this.#variable(part)))
      : 0;
    return { name, value: textOf(value), evaluateName: path, variablesReference };
  }

  #hold(list: () => readonly Variable[]): number {
    this.#held.set(++this.#lastReference, list);
    return this.#lastReference;
  }
}

/** What is listed besides the names of a frame. */
export interface Listed {
  readonly thrown: boolean;
  readonly receiver: boolean;
  readonly cells: boolean;
}

/** Functions that read the names of a frame. */
type Readers = Readonly<Record<string, () => unknown>>;

/** The value of a name; null before its declaration. */
function read(reader: () => unknown): { readonly value: unknown } | null {
  try {
    return { value: reader() };
  } catch {
    return null;
  }
}

const IDENTIFIER = /^[\p{ID_Start}$_][\p{ID_Continue}$]*$/u;

/** The name under which clients of Jupyter know this group, which they do not offer to render. */
export const FUNCTIONS = 'function variables';
