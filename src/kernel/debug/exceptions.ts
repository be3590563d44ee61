import type inspector from 'node:inspector';
import type { Node } from 'acorn';
import { isInTry, offsetOf, readScript } from './caught.js';
import type { Scripts } from './scripts.js';

type Paused = inspector.Debugger.PausedEventDataType;

/** Which exceptions stop the thread. */
export const FILTERS = [
  { filter: 'raised', label: 'Raised exceptions', default: false },
  { filter: 'uncaught', label: 'Uncaught exceptions', default: false },
] as const;

/** How far back calls are followed that led here over an `await`. */
const AWAITS = 16;

interface At {
  readonly scriptId: string;
  readonly lineNumber: number;
  readonly columnNumber?: number | undefined;
}

/** Decides which exceptions the client wants to see. */
export class Exceptions {
  readonly #trees = new Map<string, Promise<{ js: string; tree: Node | null }>>();
  #chosen: readonly string[] = [];

  constructor(private readonly scripts: Scripts) {}

  /** Takes the filters that a client has chosen; the answer is what V8 must be told. */
  choose(filters: readonly string[]): Readonly<Record<string, object>> {
    this.#chosen = filters.filter((name) => FILTERS.some(({ filter }) => filter === name));
    return {
      'Debugger.setPauseOnExceptions': { state: this.#chosen.length > 0 ? 'all' : 'none' },
      'Debugger.setAsyncCallStackDepth': { maxDepth: this.#chosen.length > 0 ? AWAITS : 0 },
    };
  }

  /**
   * Whether this exception is to stop the thread. The kernel catches whatever a cell throws, so for
   * V8 all are caught: whether the user's code would catch it is read from the `try` around each call.
   */
  async stops({ callFrames, asyncStackTrace }: Paused): Promise<boolean> {
    if (this.#chosen.includes('raised')) return true;
    const places: At[] = callFrames.map(({ location }) => location);
    for (let stack = asyncStackTrace; stack; stack = stack.parent) places.push(...stack.callFrames);
    for (const place of places)
      if (this.scripts.isOutsideKernel(place.scriptId) && (await this.#catches(place)))
        return false;
    return true;
  }

  async #catches({ scriptId, lineNumber, columnNumber = 0 }: At): Promise<boolean> {
    const { js, tree } = await this.#tree(scriptId);
    return tree !== null && isInTry(tree, offsetOf(js, lineNumber, columnNumber));
  }

  #tree(scriptId: string) {
    const known = this.#trees.get(scriptId);
    if (known) return known;
    const read = this.scripts.text(scriptId).then((js) => ({ js, tree: readScript(js) }));
    this.#trees.set(scriptId, read);
    return read;
  }
}
