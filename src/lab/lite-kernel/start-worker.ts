import {
  CellSession,
  Comms,
  LateTypeEngine,
  makeConsole,
  makeDisplay,
  remoteTypeEngine,
} from '../../cells/index.js';
import type { FromWorker, ToWorker } from './messages.js';
import { WorkerHost, type Modules } from './worker-host.js';
import { installTimers } from './worker-timers.js';

/** The side of a worker's scope that this needs. */
export interface WorkerScope {
  postMessage(message: FromWorker): void;
  onmessage: ((event: { data: ToWorker }) => void) | null;
  addEventListener?(type: string, listener: (event: never) => void): void;
}

/** Makes a worker a host of cells. */
export function startWorker(scope: WorkerScope, modules: Modules): void {
  const host = new WorkerHost(modules, (event, run) =>
    scope.postMessage({ type: 'event', run: run?.id, event }),
  );
  Object.assign(
    console,
    makeConsole((name, text) => host.emit({ type: 'stream', name, text }, host.currentRun())),
  );
  const comms = new Comms(host);
  const globals = { display: makeDisplay(host), prompt: refuseInput, kernel: { comms } };
  for (const [name, value] of Object.entries(globals))
    Object.defineProperty(globalThis, name, { value, writable: true, configurable: true });
  const types = new LateTypeEngine((run, text) =>
    host.emit({ type: 'stream', name: 'stderr', text }, session.cells.runOfId(run)),
  );
  const session: CellSession = new CellSession(host, {
    types,
    // Everything but cells is the page's own code here.
    isInternal: (file) => !file.startsWith('In['),
  });
  host.runOfStack = (stack) => session.cells.runOfStack(stack);
  installTimers({
    currentRun: () => host.currentRun(),
    inRun: (run, body) => host.inRun(run, body),
    report: (thrown) => session.reportUncaught(thrown, 'Uncaught '),
  });
  scope.addEventListener?.('unhandledrejection', ((event: PromiseRejectionEvent) => {
    event.preventDefault();
    session.reportUncaught(event.reason, 'Uncaught (in promise) ');
  }) as never);
  scope.addEventListener?.('error', ((event: ErrorEvent) => {
    event.preventDefault();
    session.reportUncaught(event.error, 'Uncaught ');
  }) as never);

  let queue: Promise<unknown> = Promise.resolve();
  scope.onmessage = ({ data: message }) => {
    if (message.type === 'types') {
      const { port } = message;
      const listen = (listener: (m: unknown) => void): void => {
        port.onmessage = ({ data }) => listener(data);
      };
      types.arrive(remoteTypeEngine({ post: (m) => port.postMessage(m), listen }));
      return;
    }
    queue = queue.then(async () => {
      if (message.type === 'run') {
        const run = { id: message.run, label: message.label };
        const outcome = await session.run(run, message.code);
        return scope.postMessage({ type: 'done', run: run.id, outcome });
      }
      const { run: id, kind, content, metadata, buffers } = message;
      try {
        host.inRun({ id, label: kind }, () =>
          comms.receive(kind, content, { data: content.data, metadata, buffers }),
        );
      } catch (thrown) {
        session.reportUncaught(thrown, `In ${kind}: `);
      }
      scope.postMessage({ type: 'comm-done', run: id });
    });
  };
  scope.postMessage({ type: 'ready' });
}

const refuse = (): never => {
  throw new Error('a notebook that runs in the page cannot stop and ask; set the value in a cell');
};
const refuseInput = Object.assign(refuse, { password: refuse });
