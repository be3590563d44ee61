import { warnOf } from './describe-diagnostics.js';
import type { Completions, Diagnostic, Inspection, TypeEngine } from './type-engine.js';

interface Past {
  readonly id: string;
  readonly source: string;
  names: readonly string[] | 'all' | null;
}

/**
 * A type engine that is still being loaded while the first cells run. Those run unchecked; once the
 * engine is there it is told of them, and `warn` of what it finds wrong in them.
 */
export class LateTypeEngine implements TypeEngine {
  #engine: TypeEngine | null = null;
  #arriving = false;
  readonly #past: Past[] = [];

  constructor(private readonly warn: (id: string, text: string) => void) {}

  /** The engine is loaded from now on. Until it has caught up, cells still run unchecked. */
  arrive(engine: TypeEngine): void {
    if (this.#arriving) return;
    this.#arriving = true;
    void this.#catchUp(engine);
  }

  async check(id: string, source: string): Promise<readonly Diagnostic[]> {
    if (this.#engine) return this.#engine.check(id, source);
    this.#past.push({ id, source, names: null });
    return [];
  }

  async commit(id: string, names: readonly string[] | 'all'): Promise<void> {
    const past = this.#past.find((p) => p.id === id);
    if (past) past.names = names;
    if (!this.#engine) return;
    if (past) await this.#tell(this.#engine, past);
    else await this.#engine.commit(id, names);
  }

  async complete(source: string, offset: number): Promise<Completions> {
    return this.#engine?.complete(source, offset) ?? { start: offset, end: offset, items: [] };
  }

  async inspect(source: string, offset: number): Promise<Inspection | null> {
    return this.#engine?.inspect(source, offset) ?? null;
  }

  async #catchUp(engine: TypeEngine): Promise<void> {
    for (const past of [...this.#past]) if (past.names) await this.#tell(engine, past);
    // What has ended meanwhile is told now; the cell that still runs is told of when it ends.
    if (this.#past.some((p) => p.names)) return this.#catchUp(engine);
    this.#engine = engine;
  }

  async #tell(engine: TypeEngine, past: Past): Promise<void> {
    this.#past.splice(this.#past.indexOf(past), 1);
    const { id, source, names } = past;
    const found = await engine.check(id, source);
    await engine.commit(id, names ?? []);
    if (found.length > 0)
      this.warn(id, `Types, checked after the cell had run:\n${warnOf(found, 'cell', source)}`);
  }
}
