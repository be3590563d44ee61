import { RUNTIME } from '../compile/runtime-name.js';
import { KeyboardInterrupt } from '../errors/cell-error.js';
import type { CellHost } from './host.js';

const globals = globalThis as unknown as Record<string, unknown>;

/** The object through which compiled cells reach the session; see `compile/`. */
export class CellRuntime {
  /** How many of the cell's declarations have been given their values. */
  step = 0;
  /** Names that loops of the cell keep in local variables; an interrupt saves them. */
  locals: readonly string[] = [];
  /** Stack trace of the place where an interrupt broke the cell off. */
  brokenAt = '';
  /** What a debugger asks, where the host has one. */
  debug: unknown = null;
  readonly global = globals;
  readonly meta: Readonly<Record<string, unknown>>;
  /** Reading or writing a member is the use of a name before its declaration. */
  readonly early = new Proxy({}, { get: tooEarly, set: tooEarly });
  /** Writing to a member is an assignment to a constant. */
  readonly constant = new Proxy(globals, { set: toConstant });
  #fresh = new Set<string>();
  readonly #waits = new Set<(reason: unknown) => void>();

  constructor(private readonly host: CellHost) {
    this.meta = host.meta;
  }

  install(): void {
    Object.defineProperty(globals, RUNTIME, { value: this, configurable: true });
  }

  /** Makes the names of a cell exist, and starts counting its steps. */
  begin(names: readonly string[], locals: readonly string[]): void {
    this.step = 0;
    this.locals = locals;
    this.brokenAt = '';
    this.#fresh = new Set();
    for (const name of names) {
      if (Object.hasOwn(globals, name)) continue;
      this.#fresh.add(name);
      this.set(name, undefined);
    }
  }

  /** Makes a name exist for all cells. */
  set(name: string, value: unknown): void {
    const property = { value, writable: true, enumerable: true, configurable: true };
    Object.defineProperty(globals, name, property);
  }

  /** Takes back a name that the cell did not reach; false if an earlier cell had set it. */
  withdraw(name: string): boolean {
    return this.#fresh.has(name) && delete globals[name];
  }

  import(specifier: unknown): Promise<object> {
    return this.host.importModule(String(specifier));
  }

  /** `await` at the top of a cell: ends when its operand does, or with an interrupt. */
  wait(operand: unknown): unknown {
    return new Promise((resolve, reject) => {
      this.#waits.add(reject);
      Promise.resolve(operand).then(
        (value) => {
          if (this.#waits.delete(reject)) resolve(value);
        },
        (reason: unknown) => {
          if (this.#waits.delete(reject)) reject(reason);
        },
      );
    });
  }

  /** Throws a KeyboardInterrupt into every `await` of the running cell. */
  abandonWaits(): void {
    const waits = [...this.#waits];
    this.#waits.clear();
    for (const reject of waits) reject(new KeyboardInterrupt());
  }
}

function tooEarly(_: object, name: string | symbol): never {
  throw new ReferenceError(`Cannot access '${String(name)}' before initialization`);
}

function toConstant(): never {
  throw new TypeError('Assignment to constant variable.');
}
