import type inspector from 'node:inspector';
import { fileURLToPath } from 'node:url';
import { FLAG } from '../messages.js';

/** How long the cells' thread may take to see an interrupt by itself before it is broken off. */
const PATIENCE_MS = 50;
/** How long a pause may take before the thread is broken off without saving its locals. */
const PAUSE_MS = 2000;

type Paused = inspector.Debugger.PausedEventDataType;

/**
 * Breaks off what the cells' thread is doing, through V8's debugger: it is paused, the variables
 * that a loop keeps to itself are saved, and the code on its stack is ended.
 */
export class Interrupter {
  #timer: NodeJS.Timeout | undefined;
  #isBreakingOff = false;

  constructor(private readonly flags: Int32Array) {}

  /** To be called before the thread is told of the interrupt. */
  prepare(): void {
    Atomics.store(this.flags, FLAG.interruptSeen, 0);
  }

  /** Breaks the thread off unless it sees the interrupt by itself; tries until it has. */
  start(): void {
    clearTimeout(this.#timer);
    const attempt = (): void => {
      if (this.#seen) return;
      void this.#breakOff().then(() => {
        this.#timer = setTimeout(attempt, PATIENCE_MS);
      });
    };
    this.#timer = setTimeout(attempt, PATIENCE_MS);
  }

  /** True while V8's debugger stops the thread for an interrupt. */
  get isBreakingOff(): boolean {
    return this.#isBreakingOff;
  }

  get #seen(): boolean {
    return Atomics.load(this.flags, FLAG.interruptSeen) !== 0;
  }

  async #breakOff(): Promise<void> {
    this.#isBreakingOff = true;
    const { Session } = await import('node:inspector');
    const session = new Session();
    session.connectToMainThread();
    const post = (method: string, params: object = {}) =>
      new Promise<Record<string, unknown>>((resolve) =>
        session.post(method, params, (_error, result) => resolve((result ?? {}) as never)),
      );
    try {
      const paused = new Promise<Paused | null>((resolve) => {
        session.on('Debugger.paused', ({ params }) => resolve(params));
        setTimeout(() => resolve(null), PAUSE_MS);
      });
      const files = new Map<string, string>();
      session.on('Debugger.scriptParsed', ({ params }) => files.set(params.scriptId, params.url));
      void post('Debugger.enable');
      void post('Debugger.pause');
      const where = await paused;
      if (where) {
        const frames = framesOf(where, files);
        const terminateOnResume = !this.#seen && frames.some(({ file }) => isUserCode(file));
        if (terminateOnResume) await saveState(frames, post);
        await post('Debugger.resume', { terminateOnResume });
      }
      await post('Debugger.disable');
      // Not paused and deaf for so long: in native code, such as a regular expression gone wild.
      if (!where && !this.#seen) await post('Runtime.terminateExecution');
    } finally {
      session.disconnect();
      this.#isBreakingOff = false;
    }
  }
}

const KERNEL_FOLDER = new URL('.', import.meta.url);

/** The kernel's own code must not be broken off, or it would lose what it was doing. */
function isUserCode(file: string): boolean {
  const ours = file.startsWith(KERNEL_FOLDER.href) || file.startsWith(fileURLToPath(KERNEL_FOLDER));
  return file !== '' && !file.startsWith('node:') && !ours;
}

const isCell = (file: string): boolean => /^In\[/.test(file);

interface Frame {
  readonly id: string;
  readonly name: string;
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

function framesOf({ callFrames }: Paused, files: ReadonlyMap<string, string>): Frame[] {
  return callFrames.map(({ callFrameId, functionName, location }) => ({
    id: callFrameId,
    name: functionName,
    file: files.get(location.scriptId) ?? '',
    line: location.lineNumber + 1,
    column: (location.columnNumber ?? 0) + 1,
  }));
}

/**
 * Loops keep names in local variables (see `cells/compile/loop-locals.ts`): they are written back.
 * Where the cell was is noted for the report.
 */
async function saveState(
  frames: readonly Frame[],
  post: (method: string, params?: object) => Promise<Record<string, unknown>>,
): Promise<void> {
  const frame = frames.findLast(({ file }) => isCell(file));
  if (!frame) return;
  const evaluate = (expression: string) =>
    post('Debugger.evaluateOnCallFrame', {
      callFrameId: frame.id,
      expression,
      returnByValue: true,
      silent: true,
    });
  await evaluate(`__cell.brokenAt = ${JSON.stringify(stackText(frames))}`);
  const { result } = await evaluate('[...__cell.locals]');
  const names = ((result as { value?: unknown } | undefined)?.value ?? []) as string[];
  for (const name of names) await evaluate(`__cell.global.${name} = ${name}`);
}

/** The stack as V8 prints it in errors. */
function stackText(frames: readonly Frame[]): string {
  return frames
    .filter(({ file }) => file !== '')
    .map(({ name, file, line, column }) => `    at ${name || 'eval'} (${file}:${line}:${column})`)
    .join('\n');
}
