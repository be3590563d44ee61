import { receiveMessageOnPort, type MessagePort, type Worker } from 'node:worker_threads';
import { CellSession, type Run } from '../../cells/index.js';
import { FLAG, INPUT, type FromCells, type ToCells } from '../messages.js';
import { remoteTypeEngine } from '../types/remote-type-engine.js';
import { installGlobals } from './globals.js';
import { isInternalFile } from './internal-files.js';
import { NodeHost } from './node-host.js';
import { askReader } from './prompt.js';
import { CellTimers } from './timers.js';

export interface CellsOptions {
  readonly front: Worker;
  readonly types: Worker;
  readonly flags: Int32Array;
  readonly answers: MessagePort;
}

/** Runs the cells that the front thread sends, in this thread. */
export function startCells({ front, types, flags, answers }: CellsOptions): void {
  const post = (message: FromCells): void => front.postMessage(message);
  const host = new NodeHost(process.cwd(), (event, run) =>
    post({ type: 'event', run: run?.id, event }),
  );
  const { comms } = installGlobals(host, (prompt, password) => {
    Atomics.store(flags, FLAG.input, INPUT.waiting);
    post({ type: 'prompt', run: host.currentRun()?.id, prompt, password });
    return askReader(flags, () => receiveMessageOnPort(answers)?.message as string);
  });
  const session = new CellSession(host, {
    types: remoteTypeEngine(types as unknown as MessagePort),
    isInternal: isInternalFile,
  });
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
