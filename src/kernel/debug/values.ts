import type { Bundle } from '../../cells/index.js';
import { InspectorError } from './cells-inspector.js';
import type { CellsThread } from './cells-thread.js';
import type { Compiled } from './cells-view.js';
import { RefusedRequest, type Variable } from './protocol.js';

type Arguments = Readonly<Record<string, unknown>>;

const IDENTIFIER = /^[\p{ID_Start}$_][\p{ID_Continue}$]*$/u;

/** What can be asked about values, while the thread stands still and while it does not. */
export class Values {
  constructor(private readonly thread: CellsThread) {}

  scopes(frameId: number): Promise<object[]> {
    const { stop } = this.thread;
    if (!stop)
      throw new RefusedRequest('the cells run: they have scopes only while they stand still');
    return stop.scopes(frameId);
  }

  async variables(reference: number): Promise<readonly Variable[]> {
    return (
      (await this.thread.inspector.ask<readonly Variable[] | null>('variables', reference)) ?? []
    );
  }

  /** The names that cells have set; what was listed before is let go, unless the thread stands still. */
  async globals(): Promise<readonly Variable[]> {
    const { inspector, stop } = this.thread;
    if (!stop) await inspector.ask('release');
    return this.variables(await inspector.ask<number>('globals'));
  }

  /** A console shows what was thrown as it shows a value; other clients get a failed request. */
  async evaluate({ expression, frameId, context }: Arguments): Promise<object> {
    try {
      const { value, variablesReference } = await this.#evaluate(String(expression), frameId);
      return { result: value, variablesReference };
    } catch (error) {
      if (context !== 'repl' || !(error instanceof InspectorError)) throw error;
      return { result: error.message, variablesReference: 0 };
    }
  }

  async rich(name: string, frameId: number | undefined): Promise<object> {
    if (!IDENTIFIER.test(name)) return { data: {}, metadata: {} };
    const { inspector, stop } = this.thread;
    if (stop && frameId !== undefined)
      return stop.evaluateIn<Bundle>(name, frameId, (js) => `__cell.debug.bundleNow(${js})`);
    const js = await this.#compiled(name);
    return stop
      ? inspector.evaluate<Bundle>(`__cell.debug.bundleNow(${js})`)
      : inspector.evaluate<Bundle>(`__cell.debug.bundle(${js})`, true);
  }

  async copyToGlobals(args: Arguments): Promise<object> {
    const [from, to] = [String(args['srcVariableName']), String(args['dstVariableName'])];
    if (!IDENTIFIER.test(from) || !IDENTIFIER.test(to))
      throw new RefusedRequest('srcVariableName and dstVariableName must each be one name');
    const { stop } = this.thread;
    if (!stop)
      throw new RefusedRequest('the cells run: a name is copied from a frame that stands still');
    const copied = (js: string): string => `__cell.debug.copy(${JSON.stringify(to)}, ${js})`;
    return stop.evaluateIn<Variable>(from, Number(args['srcFrameId']), copied);
  }

  async #evaluate(source: string, frameId: unknown): Promise<Variable> {
    const { inspector, stop } = this.thread;
    if (stop && typeof frameId === 'number') {
      const value = await stop.evaluate(source, frameId);
      stop.renumber();
      return value;
    }
    const js = JSON.stringify(await this.#compiled(source));
    return inspector.evaluate<Variable>(
      `__cell.debug.result((0, eval)(${js}), ${JSON.stringify(source)})`,
    );
  }

  async #compiled(source: string): Promise<string> {
    const compiled = await this.thread.inspector.ask<Compiled>('expression', source, []);
    if ('error' in compiled) throw new InspectorError(compiled.error);
    return compiled.js;
  }
}
