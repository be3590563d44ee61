import type inspector from 'node:inspector';
import { offsetOf } from './caught.js';
import type { ScriptPlace } from './cell-script.js';
import type { CellsInspector, Remote } from './cells-inspector.js';
import type { Compiled, Listed } from './cells-view.js';
import { InspectorError, textOf } from './cells-inspector.js';
import { RefusedRequest, type Source, type Variable } from './protocol.js';
import { placeIn, type Scripts, type UserScript } from './scripts.js';

type CallFrame = inspector.Debugger.CallFrame;

/** A frame of the user's code on the stack of the stopped thread. */
interface Frame {
  id: number;
  readonly call: CallFrame;
  readonly script: UserScript;
  readonly line: number;
  readonly column: number;
}

/** Kinds of scopes that belong to the frame itself; others lie around its function. */
const OWN_SCOPES = new Set(['local', 'block', 'catch', 'with', 'eval']);

interface Evaluated {
  readonly result: Remote;
  readonly exceptionDetails?: inspector.Runtime.ExceptionDetails;
}

/** A thread that stands still: its frames, and what can be asked in them. */
export class Stop {
  #lastId: number;

  private constructor(
    private readonly inspector: CellsInspector,
    private readonly frames: readonly Frame[],
  ) {
    this.#lastId = frames.at(-1)?.id ?? 0;
  }

  /** `after`: the last id given to a frame before; ids are never given twice. */
  static async at(
    inspector: CellsInspector,
    scripts: Scripts,
    calls: readonly CallFrame[],
    after: number,
  ): Promise<Stop> {
    const frames: Frame[] = [];
    for (const call of calls) {
      const script = await scripts.user(call.location.scriptId);
      if (!script) continue;
      const place = placeIn(script, call.location) ?? { line: 1, column: 1 };
      frames.push({ id: after + frames.length + 1, call, script, ...place });
    }
    return new Stop(inspector, frames);
  }

  get lastId(): number {
    return this.#lastId;
  }

  /** Source and line of the innermost frame. */
  get top(): { readonly source: Source; readonly line: number } | null {
    const [frame] = this.frames;
    return frame ? { source: frame.script.source, line: frame.line } : null;
  }

  stackFrames(): object[] {
    return this.frames.map((frame) => ({
      id: frame.id,
      name: nameOf(frame),
      source: frame.script.source,
      line: frame.line,
      column: frame.column,
    }));
  }

  /** Clients ask anew for the variables of frames that they do not know yet. */
  renumber(): void {
    for (const frame of this.frames) frame.id = ++this.#lastId;
  }

  async scopes(frameId: number): Promise<object[]> {
    const frame = this.#frame(frameId);
    const { own, around } = await this.#names(frame);
    const isTop = frame === this.frames[0];
    const locals: Listed = { thrown: isTop, receiver: true, cells: isCellItself(frame) };
    const scopes = [scope('Locals', await this.#read(frame, 'frame', [locals], own))];
    const closure: Listed = { thrown: false, receiver: false, cells: false };
    if (around.length > 0)
      scopes.push(scope('Closure', await this.#read(frame, 'frame', [closure], around)));
    return [...scopes, scope('Globals', await this.inspector.ask<number>('globals'))];
  }

  /** Evaluates statements in a frame; the answer is the last value. */
  async evaluate(source: string, frameId: number): Promise<Variable> {
    const result = await this.#evaluate(source, frameId, (js) => js);
    return this.inspector.askOf('result', { remote: result }, { plain: source });
  }

  /** Evaluates an expression that `wrap` makes of a frame's expression, as JSON holds it. */
  async evaluateIn<T>(source: string, frameId: number, wrap: (js: string) => string): Promise<T> {
    return (await this.#evaluate(source, frameId, wrap, true)).value as T;
  }

  /** What loops of the running cell keep to themselves becomes visible to everything else. */
  async shareLoopLocals(): Promise<void> {
    const frame = this.frames.findLast(isCellItself);
    if (!frame) return;
    const inner = new Set<string>();
    for (const { type, object, startLocation } of frame.call.scopeChain) {
      if (!OWN_SCOPES.has(type)) continue;
      const names = await this.#namesOf([object]);
      if (type === 'block' && startLocation && keepsLoopLocals(frame.script.js, startLocation)) {
        const shared = names.filter((name) => !inner.has(name));
        await this.#read(frame, 'shareLoopLocals', [], shared);
      }
      names.forEach((name) => inner.add(name));
    }
  }

  async #evaluate(
    source: string,
    frameId: number,
    wrap: (js: string) => string,
    returnByValue = false,
  ): Promise<Remote> {
    const frame = this.#frame(frameId);
    const { own, around } = await this.#names(frame);
    const compiled = await this.inspector.ask<Compiled>('expression', source, [...own, ...around]);
    if ('error' in compiled) throw new InspectorError(compiled.error);
    const result = await this.#run(frame, wrap(compiled.js), returnByValue);
    await this.shareLoopLocals();
    return result;
  }

  /**
   * Calls a method of `CellsView` with functions that read names of a frame, as the last argument.
   * V8's own lists of a scope's values are of the moment at which the thread stopped.
   */
  async #read(
    frame: Frame,
    method: string,
    values: readonly object[],
    names: readonly string[],
  ): Promise<number> {
    const readers = names.map((name) => `${JSON.stringify(name)}: () => ${name}`);
    const first = values.map((value) => JSON.stringify(value));
    const list = [...first, `{ ${readers.join(', ')} }`, '() => this'].join(', ');
    return (await this.#run(frame, `__cell.debug.${method}(${list})`, true)).value as number;
  }

  async #run({ call }: Frame, expression: string, returnByValue: boolean): Promise<Remote> {
    const { callFrameId } = call;
    const { result, exceptionDetails } = await this.inspector.post<Evaluated>(
      'Debugger.evaluateOnCallFrame',
      { callFrameId, expression, returnByValue, silent: true },
    );
    if (exceptionDetails) throw new InspectorError(textOf(exceptionDetails));
    return result;
  }

  /** The names that a frame binds itself, and those that lie around its function. */
  async #names({ call }: Frame): Promise<{ own: readonly string[]; around: readonly string[] }> {
    const isOwn = ({ type }: { type: string }): boolean => OWN_SCOPES.has(type);
    const local = call.scopeChain.filter(({ type }) => type !== 'global');
    const own = await this.#namesOf(local.filter(isOwn).map(({ object }) => object));
    const outer = await this.#namesOf(local.filter((s) => !isOwn(s)).map(({ object }) => object));
    return { own, around: outer.filter((name) => !own.includes(name)) };
  }

  #namesOf(scopes: readonly Remote[]): Promise<readonly string[]> {
    return this.inspector.askOf('names', ...scopes.map((remote) => ({ remote })));
  }

  #frame(id: number): Frame {
    const frame = this.frames.find((f) => f.id === id);
    if (!frame) throw new RefusedRequest(`there is no frame ${id}: ask for the stack trace again`);
    return frame;
  }
}

/** The compiler puts such a block around a loop; see `cells/compile/loop-locals.ts`. */
function keepsLoopLocals(js: string, { lineNumber, columnNumber = 0 }: ScriptPlace): boolean {
  const from = offsetOf(js, lineNumber, columnNumber);
  return /^\{(let|const) \S+ = __cell\.global\./.test(js.slice(from, from + 200));
}

function scope(name: string, variablesReference: number): object {
  const presentationHint = name === 'Locals' ? { presentationHint: 'locals' } : {};
  return { name, variablesReference, expensive: false, ...presentationHint };
}

/** True for the code at the top of a cell, whose function begins where its script does. */
function isCellItself({ script, call }: Frame): boolean {
  const at = call.functionLocation;
  if (!script.cell || call.functionName !== '' || !at) return false;
  return /^\((async )?function $/.test(
    script.js.slice(0, offsetOf(script.js, at.lineNumber, at.columnNumber ?? 0)),
  );
}

function nameOf({ script, call }: Frame): string {
  return call.functionName || (script.cell ? script.source.name : '(anonymous)');
}
