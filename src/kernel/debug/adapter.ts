import fs from 'node:fs';
import type { CellFiles } from './cell-files.js';
import { InspectorError } from './cells-inspector.js';
import { CellsThread, type StopReason } from './cells-thread.js';
import { debugInfo } from './debug-info.js';
import { FILTERS } from './exceptions.js';
import {
  RefusedRequest,
  THREAD,
  type DebugEvent,
  type DebugReply,
  type DebugRequest,
} from './protocol.js';
import type { Going } from './step.js';
import { Values } from './values.js';

/** What the adapter needs of the kernel. */
export interface KernelLink {
  /** Publishes an event. */
  publish(event: DebugEvent): void;
  isInterrupting(): boolean;
}

/** What goes with a refusal: JupyterLab reads its lists from any answer, as when a cell ends while it asks. */
const NOTHING: Readonly<Record<string, object>> = {
  inspectVariables: { variables: [] },
  scopes: { scopes: [] },
  setBreakpoints: { breakpoints: [] },
  variables: { variables: [] },
};

type Arguments = Readonly<Record<string, unknown>>;
type Handler = (args: Arguments) => object | Promise<object>;

/** Answers the requests of Jupyter's clients for debugging. */
export class DebugAdapter {
  #thread: CellsThread | null = null;
  #seq = 0;
  /** Breakpoints are set one file after the other, or two requests for a file would mix. */
  #settings: Promise<unknown> = Promise.resolve();

  constructor(
    private readonly kernel: KernelLink,
    private readonly files: CellFiles,
  ) {}

  async answer(request: DebugRequest): Promise<DebugReply> {
    const { command, arguments: args = {}, seq } = request;
    const reply = { type: 'response', seq: ++this.#seq, request_seq: seq, command } as const;
    try {
      const handler = Object.hasOwn(this.#handlers, command) ? this.#handlers[command] : undefined;
      if (!handler) throw new RefusedRequest(`this debugger does not know the request ${command}`);
      return { ...reply, success: true, body: await handler(args) };
    } catch (error) {
      if (!(error instanceof RefusedRequest || error instanceof InspectorError)) throw error;
      return { ...reply, success: false, message: error.message, body: NOTHING[command] ?? {} };
    }
  }

  /** Told when the cells' thread has ended a cell. */
  cellEnded(): void {
    void this.#thread?.cellEnded();
  }

  /** For the end of the kernel: a thread that stands still is left so, or it would run on. */
  shutDown(): void {
    if (!this.#thread) return;
    if (this.#thread.stop) this.#continued();
    else this.#end();
    this.#event('terminated', {});
  }

  #end(): void {
    this.#thread?.close();
    this.#thread = null;
  }

  readonly #handlers: Readonly<Record<string, Handler>> = {
    debugInfo: () => this.#info(),
    initialize: () => this.#initialize(),
    attach: () => {
      this.#event('initialized', {});
      this.#event('thread', { reason: 'started', threadId: THREAD.id });
      return {};
    },
    configurationDone: () => ({}),
    disconnect: () => this.#disconnect(),
    terminate: () => this.#disconnect(),
    dumpCell: ({ code }) => ({ sourcePath: this.files.add(String(code)) }),
    setBreakpoints: (args) => this.#setBreakpoints(args),
    setExceptionBreakpoints: async ({ filters }) => {
      await this.#started().stopAtExceptions((filters ?? []) as string[]);
      return {};
    },
    source: ({ source }) => this.#source((source as { path?: string } | undefined)?.path ?? ''),
    threads: () => ({ threads: [THREAD] }),
    stackTrace: () => {
      const stackFrames = this.#thread?.stop?.stackFrames() ?? [];
      return { stackFrames, totalFrames: stackFrames.length };
    },
    pause: async () => {
      await this.#started().pause();
      return {};
    },
    continue: async () => {
      await this.#go('resume');
      return { allThreadsContinued: true };
    },
    next: () => this.#go('stepOver'),
    stepIn: () => this.#go('stepInto'),
    stepOut: () => this.#go('stepOut'),
    scopes: async ({ frameId }) => ({ scopes: await this.#values().scopes(Number(frameId)) }),
    variables: async ({ variablesReference }) => ({
      variables: await this.#values().variables(Number(variablesReference)),
    }),
    evaluate: (args) => this.#values().evaluate(args),
    inspectVariables: async () => ({
      variables: this.#thread ? await this.#values().globals() : [],
    }),
    richInspectVariables: ({ variableName, frameId }) =>
      this.#values().rich(String(variableName), frameId as number | undefined),
    copyToGlobals: (args) => this.#values().copyToGlobals(args),
  };

  #info(): object {
    const thread = this.#thread;
    return debugInfo(this.files, {
      isStarted: thread !== null,
      breakpoints: thread?.breakpoints.list() ?? [],
      stoppedThreads: thread?.stop ? [THREAD.id] : [],
    });
  }

  async #initialize(): Promise<object> {
    if (!this.#thread) {
      const thread = new CellsThread(this.files, {
        stopped: (reason, description) => this.#stopped(reason, description),
        continued: () => this.#continued(),
        isInterrupting: () => this.kernel.isInterrupting(),
      });
      this.#thread = thread;
      await thread.open();
    }
    return {
      supportsConfigurationDoneRequest: true,
      supportsEvaluateForHovers: true,
      supportsTerminateRequest: true,
      exceptionBreakpointFilters: FILTERS,
    };
  }

  #disconnect(): object {
    if (this.#thread) {
      this.#end();
      this.#event('terminated', {});
    }
    return {};
  }

  #setBreakpoints(args: Arguments): Promise<object> {
    const { source, breakpoints = [] } = args as {
      source?: { path?: string };
      breakpoints?: readonly { readonly line: number }[];
    };
    const path = source?.path ?? '';
    const lines = breakpoints.map(({ line }) => line);
    const set = this.#settings.then(async () => ({
      breakpoints: await this.#started().breakpoints.replace(path, lines),
    }));
    this.#settings = set.catch(() => undefined);
    return set;
  }

  #source(path: string): object {
    const content = this.files.source(path) ?? readIfThere(path);
    if (content === null) throw new RefusedRequest(`there is no source under ${path}`);
    return { content, mimeType: 'text/typescript' };
  }

  async #go(how: Going): Promise<object> {
    await this.#started().go(how);
    return {};
  }

  #stopped(reason: StopReason, description: string | undefined): void {
    const said = description === undefined ? {} : { description, text: description };
    this.#event('stopped', { reason, threadId: THREAD.id, allThreadsStopped: true, ...said });
  }

  #continued(): void {
    this.#event('continued', { threadId: THREAD.id, allThreadsContinued: true });
  }

  #event(event: string, body: object): void {
    this.kernel.publish({ type: 'event', seq: ++this.#seq, event, body });
  }

  #values(): Values {
    return new Values(this.#started());
  }

  #started(): CellsThread {
    if (!this.#thread)
      throw new RefusedRequest('the debugger has not been started: send initialize first');
    return this.#thread;
  }
}

function readIfThere(path: string): string | null {
  return fs.statSync(path, { throwIfNoEntry: false })?.isFile()
    ? fs.readFileSync(path, 'utf8')
    : null;
}
