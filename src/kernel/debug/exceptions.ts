import type inspector from 'node:inspector';
import { isInTry, offsetOf } from './caught.js';
import type { Scripts } from './scripts.js';

type Paused = inspector.Debugger.PausedEventDataType;

/** Which exceptions stop the thread. */
export const FILTERS = [
  { filter: 'raised', label: 'Raised exceptions', default: false },
  { filter: 'uncaught', label: 'Uncaught exceptions', default: false },
] as const;

/** How far back calls are followed that led here over an `await`. */
const AWAITS = 16;

interface Place {
  readonly scriptId: string;
  readonly lineNumber: number;
  readonly columnNumber?: number | undefined;
}

/** Where a call stands, and where its function begins if that is known. */
interface Call {
  readonly at: Place;
  readonly start?: Place | undefined;
}

/** Decides which exceptions the client wants to see. */
export class Exceptions {
  readonly #texts = new Map<string, Promise<string>>();
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
    const calls: Call[] = callFrames.map(({ location: at, functionLocation: start }) => ({
      at,
      start,
    }));
    for (let stack = asyncStackTrace; stack; stack = stack.parent)
      for (const at of stack.callFrames) if (this.scripts.isUsers(at.scriptId)) calls.push({ at });
    for (const call of calls)
      if (this.scripts.isOutsideKernel(call.at.scriptId) && (await this.#catches(call)))
        return false;
    return true;
  }

  async #catches({ at, start }: Call): Promise<boolean> {
    const js = await this.#text(at.scriptId);
    const offset = (place: Place): number =>
      offsetOf(js, place.lineNumber, place.columnNumber ?? 0);
    return isInTry(js, start ? offset(start) : 0, offset(at));
  }

  #text(scriptId: string): Promise<string> {
    const known = this.#texts.get(scriptId);
    if (known) return known;
    const text = this.scripts.text(scriptId);
    this.#texts.set(scriptId, text);
    return text;
  }
}
