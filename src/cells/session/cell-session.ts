import { compileCell, type CompiledCell } from '../compile/compile-cell.js';
import { NameLedger } from '../compile/name-ledger.js';
import { KeyboardInterrupt, type CellError } from '../errors/cell-error.js';
import { CellSyntaxError } from '../errors/cell-syntax-error.js';
import { describeError, describeSyntaxError } from '../errors/describe-error.js';
import { describeDiagnostics, warnOf } from '../types/describe-diagnostics.js';
import { typeMode, type TypeMode } from '../types/type-mode.js';
import type { TypeEngine } from '../types/type-engine.js';
import { bundleOf, type Bundle } from '../values/bundle.js';
import type { CellHost, Run } from './host.js';
import { KnownCells } from './known-cells.js';
import { CellRuntime } from './runtime.js';

export type Outcome =
  | { readonly status: 'ok'; readonly result: Bundle | null }
  | { readonly status: 'error'; readonly error: CellError };

export interface SessionOptions {
  readonly types?: TypeEngine | undefined;
  /** What a type error does where the cell does not say; `error` if left out. */
  readonly typeMode?: TypeMode;
  /** Tells stack frames of the host's own code. */
  readonly isInternal?: (file: string) => boolean;
}

interface ActiveRun {
  readonly run: Run;
  readonly settle: (outcome: Outcome) => void;
  compiled: CompiledCell | null;
}

/** Runs the cells of one notebook, one at a time; names of a cell last for the cells after it. */
export class CellSession {
  readonly cells: KnownCells;
  /** The names that cells have set, and where each is kept. */
  readonly ledger: NameLedger;
  typeMode: TypeMode;
  readonly #runtime: CellRuntime;
  readonly #types: TypeEngine | undefined;
  #active: ActiveRun | null = null;
  readonly #adopted: string[] = [];

  constructor(
    private readonly host: CellHost,
    options: SessionOptions = {},
  ) {
    this.cells = new KnownCells(options.isInternal);
    this.typeMode = options.typeMode ?? 'error';
    this.#types = options.types;
    this.ledger = new NameLedger((name) => name in globalThis);
    this.#runtime = new CellRuntime(host);
    this.#runtime.install();
  }

  /** The run whose cell has not ended yet. */
  get activeRun(): Run | undefined {
    return this.#active?.run;
  }

  /** Runs a cell. The promise settles when the cell ends or is interrupted; it never rejects. */
  run(run: Run, source: string): Promise<Outcome> {
    return new Promise((resolve) => {
      const active: ActiveRun = {
        run,
        compiled: null,
        settle: (outcome) => {
          if (this.#active === active) this.#active = null;
          this.#declareAdopted();
          resolve(outcome);
        },
      };
      this.#active = active;
      // Apart from the caller, whose stack an interrupt must not tear.
      queueMicrotask(() => void this.#perform(active, source));
    });
  }

  /** Puts what a debugger asks where it finds it: `__cell.debug`. */
  offerDebugger(view: object): void {
    this.#runtime.debug = view;
  }

  /** Ends the running cell with a KeyboardInterrupt; what it has set stays set. */
  interrupt(): void {
    const active = this.#active;
    if (!active) return;
    this.#runtime.abandonWaits();
    const stop = new KeyboardInterrupt();
    stop.stack = `KeyboardInterrupt\n${this.#runtime.brokenAt}`;
    this.#finish(active, describeError(stop, this.cells));
  }

  /** Gives all cells a name that none has declared; the judge of types is told behind the running cell. */
  adopt(name: string, value: unknown): void {
    this.ledger.declare(new Map([[name, 'let']]));
    this.#runtime.set(this.ledger.storage(name), value);
    this.#adopted.push(name);
    if (!this.#active) this.#declareAdopted();
  }

  #declareAdopted(): void {
    for (const name of this.#adopted.splice(0)) {
      const id = `adopted ${name}`;
      this.#types?.check(id, `let ${name}: any;`).catch(() => undefined);
      this.#types?.commit(id, 'all').catch(() => undefined);
    }
  }

  /** Reports an error that a timer or promise of a cell threw. */
  reportUncaught(thrown: unknown, heading: string): void {
    const error = describeError(thrown, this.cells, heading);
    this.host.emit({ type: 'error', error }, this.cells.runOf(thrown) ?? this.host.currentRun());
  }

  async #perform(active: ActiveRun, source: string): Promise<void> {
    try {
      const compiled = await this.#prepare(active, source);
      if (!compiled || this.#active !== active) return;
      active.compiled = compiled;
      const value = await this.#execute(active.run, compiled);
      const result = value === undefined ? null : await bundleOf(value);
      if (this.#active !== active) return;
      void this.#types?.commit(active.run.id, 'all');
      active.settle({ status: 'ok', result });
    } catch (thrown) {
      this.#finish(active, describeError(thrown, this.cells));
    }
  }

  /** Compiles and checks a cell; reports what is wrong with it and returns null if it cannot run. */
  async #prepare(active: ActiveRun, source: string): Promise<CompiledCell | null> {
    const { run } = active;
    const mode = typeMode(source) ?? this.typeMode;
    let compiled: CompiledCell | null = null;
    let syntax: CellSyntaxError | null = null;
    try {
      compiled = compileCell(source, this.ledger);
    } catch (error) {
      if (!(error instanceof CellSyntaxError)) throw error;
      syntax = error;
    }
    this.cells.add(run, source, compiled?.map ?? null);
    const found = mode === 'off' && !syntax ? [] : await this.#check(run.id, source, compiled);
    const stops = found.filter((d) => mode === 'error' || d.code < 2000);
    if (this.#active !== active) return null;
    if (stops.length > 0) {
      const library = Object.keys(await this.#library());
      const error = describeDiagnostics(stops, run.label, source, library);
      active.settle({ status: 'error', error });
    } else if (syntax)
      active.settle({ status: 'error', error: describeSyntaxError(syntax, run.label, source) });
    else if (found.length > 0)
      this.host.emit(
        { type: 'stream', name: 'stderr', text: warnOf(found, run.label, source) },
        run,
      );
    return stops.length > 0 || syntax ? null : compiled;
  }

  /** Nobody waits for a verdict that is plain beforehand; the engine is told of the cell all the same. */
  async #check(id: string, source: string, compiled: CompiledCell | null) {
    const verdict = this.#types?.check(id, source);
    if (!verdict || !compiled?.plainImports || !(await this.#haveAll(compiled.plainImports)))
      return (await verdict) ?? [];
    verdict.catch(() => undefined);
    return [];
  }

  async #haveAll(names: readonly string[]): Promise<boolean> {
    if (names.length === 0) return true;
    const library = await this.#library();
    return names.every((name) => name in library);
  }

  #library(): Promise<object> {
    return this.host.importModule('cocked-hat').catch(() => ({}));
  }

  #execute(run: Run, compiled: CompiledCell): unknown {
    const names = [...compiled.names.keys()].map((name) => this.ledger.storage(name));
    this.#runtime.begin(names, compiled.loopLocals);
    this.ledger.declare(compiled.names);
    return this.host.inRun(run, () => {
      const body = this.host.evaluate(compiled.js, this.cells.fileOf(run)) as () => unknown;
      return body();
    });
  }

  /** Ends a cell that failed: names it had not reached are as they were before. */
  #finish(active: ActiveRun, error: CellError): void {
    if (this.#active !== active) return;
    const { compiled } = active;
    if (compiled) {
      const missed = new Set(compiled.steps.slice(this.#runtime.step).flat());
      for (const name of missed) {
        const isNew = this.#runtime.withdraw(this.ledger.storage(name));
        if (isNew) this.ledger.forget(name);
      }
      const set = [...compiled.names.keys()].filter((name) => !missed.has(name));
      void this.#types?.commit(active.run.id, set);
    }
    active.settle({ status: 'error', error });
  }
}
