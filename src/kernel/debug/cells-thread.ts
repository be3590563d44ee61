import type inspector from 'node:inspector';
import { Breakpoints } from './breakpoints.js';
import type { CellFiles } from './cell-files.js';
import { CellsInspector, type Remote } from './cells-inspector.js';
import { Exceptions } from './exceptions.js';
import { LIBRARIES, MACHINERY, Scripts, type ParsedScript } from './scripts.js';
import { Step, type Going } from './step.js';
import { Stop } from './stop.js';

type Paused = inspector.Debugger.PausedEventDataType;

export type StopReason = 'breakpoint' | 'step' | 'exception' | 'pause';

/** What is told of the thread as it stops and goes on. */
export interface ThreadListener {
  stopped(reason: StopReason, description: string | undefined): void;
  continued(): void;
  /** True while an interrupt stops the thread by the same means. */
  isInterrupting(): boolean;
}

/** The thread that runs cells, under V8's debugger: stops it, and lets it go on. */
export class CellsThread {
  readonly inspector = new CellsInspector();
  readonly scripts: Scripts;
  readonly breakpoints: Breakpoints;
  readonly #exceptions: Exceptions;
  #stop: Stop | null = null;
  #paused: Paused | null = null;
  #step: Step | null = null;
  #isPauseAsked = false;
  /** A pause was asked for, and the thread makes one more step before it stops. */
  #isPausing = false;
  #passed: readonly string[] = [];
  #lastFrame = 0;

  constructor(
    files: CellFiles,
    private readonly listener: ThreadListener,
  ) {
    this.scripts = new Scripts(this.inspector, files);
    this.breakpoints = new Breakpoints(this.inspector, this.scripts, files);
    this.#exceptions = new Exceptions(this.scripts);
  }

  /** Where the thread stands; null while it runs. */
  get stop(): Stop | null {
    return this.#stop;
  }

  async open(): Promise<void> {
    const { inspector } = this;
    inspector.on<ParsedScript>('Debugger.scriptParsed', (script) => this.scripts.add(script));
    inspector.on<Paused>('Debugger.paused', (paused) => {
      // Requests that come after the end of a session are refused, and nobody waits for them.
      this.#pause(paused).catch(() => undefined);
    });
    inspector.on('Debugger.resumed', () => this.#resumed());
    inspector.open();
    await inspector.post('Debugger.enable');
    await this.#passOver(MACHINERY);
    // Each script stops before it runs, so that the breakpoints of a cell can be set in it.
    const instrumentation = 'beforeScriptExecution';
    await inspector.post('Debugger.setInstrumentationBreakpoint', { instrumentation });
  }

  /** Leaves the thread; if it stands still it goes on. */
  close(): void {
    this.#resumed();
    this.inspector.close();
  }

  async stopAtExceptions(filters: readonly string[]): Promise<void> {
    for (const [method, params] of Object.entries(this.#exceptions.choose(filters)))
      await this.inspector.post(method, params);
  }

  async pause(): Promise<void> {
    this.#isPauseAsked = true;
    await this.inspector.post('Debugger.pause');
  }

  /** Lets a thread that stands still go on, for a step or until something stops it. */
  async go(how: Going): Promise<void> {
    if (!this.#paused || !this.#stop) return;
    this.#step = how === 'resume' ? null : new Step(how, this.#paused, this.scripts);
    await this.#resume(how);
  }

  /** A step from the end of a cell does not lead into the next. */
  async cellEnded(): Promise<void> {
    if (!this.#step || this.#stop) return;
    this.#step = null;
    // V8 forgets the step when the thread stops for anything else.
    await this.inspector
      .post('Runtime.evaluate', { expression: 'debugger' })
      .catch(() => undefined);
  }

  async #pause(paused: Paused): Promise<void> {
    if (this.listener.isInterrupting()) return;
    this.#paused = paused;
    const hit = (paused.hitBreakpoints ?? []).length > 0;
    const isException = /^(exception|promiseRejection)$/.test(paused.reason);
    if (isBeforeScript(paused)) {
      await this.#bind(paused);
      return this.#resume('resume');
    }
    if (isException && !(await this.#exceptions.stops(paused)))
      return this.#resume(this.#step?.how ?? 'resume');
    if (this.#isPauseAsked && !hit && !isException && !this.#isPausing) {
      // Optimized code does not take values that are set in it; a step makes V8 leave it.
      this.#isPausing = true;
      return this.#resume('stepOver');
    }
    const asked = this.#isPauseAsked || hit || isException;
    const on = asked ? null : ((await this.#step?.onwards(paused)) ?? null);
    if (on) return this.#resume(on);
    const stop = await Stop.at(this.inspector, this.scripts, paused.callFrames, this.#lastFrame);
    if (!stop.top) return this.#resume('resume');
    const reason = this.#reason(hit, isException);
    this.#step = null;
    this.#isPauseAsked = false;
    this.#isPausing = false;
    await this.inspector.ask('release');
    if (isException) await this.inspector.askOf('keepThrown', { remote: paused.data as Remote });
    await stop.shareLoopLocals();
    this.#stop = stop;
    const { description } = (paused.data ?? {}) as { description?: string };
    this.listener.stopped(reason, isException ? firstLine(description ?? '') : undefined);
  }

  #reason(hit: boolean, isException: boolean): StopReason {
    if (isException) return 'exception';
    if (hit || !(this.#step || this.#isPauseAsked)) return 'breakpoint';
    return this.#step ? 'step' : 'pause';
  }

  async #bind(paused: Paused): Promise<void> {
    this.#step = null;
    const { scriptId } = (paused.data ?? {}) as { scriptId?: string };
    if (scriptId !== undefined) await this.breakpoints.bind(scriptId);
  }

  /** A step into a call passes over the code of libraries; exceptions in it stop the thread all the same. */
  async #resume(how: Going): Promise<void> {
    await this.#passOver(how === 'stepInto' ? [...MACHINERY, ...LIBRARIES] : MACHINERY);
    await this.inspector.post(`Debugger.${how}`);
  }

  async #passOver(patterns: readonly string[]): Promise<void> {
    if (patterns.length === this.#passed.length) return;
    this.#passed = patterns;
    await this.inspector.post('Debugger.setBlackboxPatterns', { patterns });
  }

  #resumed(): void {
    this.#paused = null;
    if (!this.#stop) return;
    this.#lastFrame = this.#stop.lastId;
    this.#stop = null;
    this.listener.continued();
  }
}

/** What was thrown, without the stack behind it. */
const firstLine = (description: string): string => description.split('\n    at ')[0] ?? '';

/** Its reason is missing in the types of Node's inspector. */
function isBeforeScript({ reason, data }: Paused): boolean {
  const { reasons = [] } = (data ?? {}) as { reasons?: readonly { readonly reason: string }[] };
  return [reason as string, ...reasons.map((r) => r.reason)].includes('instrumentation');
}
