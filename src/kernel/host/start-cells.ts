import { CellSession, remoteTypeEngine, type Line, type Run } from '../../cells/index.js';
import { CellsView } from '../debug/cells-view.js';
import { FLAG, INPUT, type FromCells, type ToCells } from '../messages.js';
import { installGlobals } from './globals.js';
import { isInternalFile } from './internal-files.js';
import { NodeHost } from './node-host.js';
import { CellTimers } from './timers.js';

/** The line to whatever sends the cells: the front thread, or the program that runs a notebook. */
export interface FrontPort {
  postMessage(message: FromCells): void;
  on(event: 'message', listener: (message: ToCells) => void): void;
}

export interface CellsOptions {
  readonly front: FrontPort;
  /** The line to the judge of types. */
  readonly types: Line;
  /** Shared words by which the front stops a cell that does not listen. */
  readonly flags: Int32Array;
  /** Asks the reader for a line, after the question has been sent. */
  readonly ask: () => string;
}

/** Runs the cells that the front thread sends, in this thread. */
export function startCells({ front, types, flags, ask }: CellsOptions): void {
  const post = (message: FromCells): void => front.postMessage(message);
  const host = new NodeHost(process.cwd(), (event, run) =>
    post({ type: 'event', run: run?.id, event }),
  );
  const { comms } = installGlobals(host, (prompt, password) => {
    Atomics.store(flags, FLAG.input, INPUT.waiting);
    post({ type: 'prompt', run: host.currentRun()?.id, prompt, password });
    return ask();
  });
  const session = new CellSession(host, {
    types: remoteTypeEngine(types),
    isInternal: isInternalFile,
  });
  session.offerDebugger(new CellsView(session));
  host.runOfStack = (stack) => session.cells.runOfStack(stack);
  const timers = new CellTimers({
    currentRun: () => host.currentRun(),
    inRun: (run, body) => host.inRun(run, body),
    report: (thrown) => session.reportUncaught(thrown, 'Uncaught '),
  });
  timers.install();
  process.on('uncaughtException', (thrown) => session.reportUncaught(thrown, 'Uncaught '));
  process.on('unhandledRejection', (thrown) =>
    session.reportUncaught(thrown, 'Uncaught (in promise) '),
  );
  process.on('SIGINT', () => post({ type: 'signal' }));

  const execute = async ({ run: id, label, code }: Extract<ToCells, { type: 'run' }>) => {
    const run: Run = { id, label };
    post({ type: 'done', run: id, outcome: await session.run(run, code) });
  };
  const comm = (message: Extract<ToCells, { type: 'comm' }>): void => {
    const { run: id, kind, content, metadata, buffers } = message;
    const run: Run = { id, label: kind };
    try {
      host.inRun(run, () =>
        comms.receive(kind, content, { data: content.data, metadata, buffers }),
      );
    } catch (thrown) {
      session.reportUncaught(thrown, `In ${kind}: `);
    }
    post({ type: 'comm-done', run: id });
  };
  const interrupt = (id: string | undefined): void => {
    Atomics.store(flags, FLAG.interruptSeen, 1);
    const run = session.activeRun;
    if (!run || (id && run.id !== id)) return;
    host.unwind();
    timers.stop(run);
    session.interrupt();
  };
  front.on('message', (message: ToCells) => {
    if (message.type === 'run') void execute(message);
    else if (message.type === 'comm') comm(message);
    else if (message.type === 'interrupt') interrupt(message.run);
    else process.exit(0);
  });
}
