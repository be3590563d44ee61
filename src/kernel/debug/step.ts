import type inspector from 'node:inspector';
import { placeIn, type Scripts } from './scripts.js';

type Paused = inspector.Debugger.PausedEventDataType;
type CallFrame = inspector.Debugger.CallFrame;

/** How the thread may go on from where it stands, as V8 calls it. */
export type Going = 'resume' | 'stepOver' | 'stepInto' | 'stepOut';

/** Most places that a step passes over by itself, so that a loop on one line can be left. */
const MOST_PASSED = 30;

/** A step of the client, which is by lines, out of the steps of V8, which are by expressions. */
export class Step {
  readonly #start: CallFrame | undefined;
  readonly #depth: number;
  #passed = 0;

  constructor(
    readonly how: Exclude<Going, 'resume'>,
    { callFrames }: Paused,
    private readonly scripts: Scripts,
  ) {
    this.#start = callFrames[0];
    this.#depth = callFrames.length;
  }

  /** How to go on if the step has not ended here. */
  async onwards({ callFrames }: Paused): Promise<Going | null> {
    const [top] = callFrames;
    if (!top || ++this.#passed > MOST_PASSED) return null;
    const script = await this.scripts.user(top.location.scriptId);
    if (!script) return 'stepOut';
    const place = placeIn(script, top.location);
    const how = this.how === 'stepOut' ? 'stepOver' : this.how;
    if (!place) return how;
    const isDeeper = callFrames.length > this.#depth;
    if (this.how === 'stepOut' || isDeeper || !this.#start || !isSameFunction(top, this.#start))
      return null;
    return placeIn(script, this.#start.location)?.line === place.line ? how : null;
  }
}

function isSameFunction(a: CallFrame, b: CallFrame): boolean {
  const [x, y] = [a.functionLocation, b.functionLocation];
  return (
    x?.scriptId === y?.scriptId &&
    x?.lineNumber === y?.lineNumber &&
    x?.columnNumber === y?.columnNumber
  );
}
