import * as library from '../../browser.js';
import {
  CellSession,
  makeConsole,
  makeDisplay,
  type CellEvent,
  type CellHost,
  type Run,
} from '../../cells/index.js';
import type { BROWSER_MODULES } from '../source/imports.js';
import type { FromWorker, ToWorker } from './messages.js';

interface WorkerScope {
  postMessage(message: FromWorker): void;
  onmessage: ((event: { data: ToWorker }) => void) | null;
}

type Held = (typeof BROWSER_MODULES)['page'][number];
const MODULES: Readonly<Record<Held, object>> = { 'cocked-hat': library };

/** Runs cells in a worker of a published page; nothing can be loaded from outside. */
class PageHost implements CellHost {
  readonly meta = Object.freeze({ url: 'page:cell.ts' });
  #run: Run | undefined;
  constructor(private readonly scope: WorkerScope) {}

  evaluate(js: string, file: string): unknown {
    return (0, eval)(`${js}\n//# sourceURL=${file}`);
  }
  importModule(specifier: string): Promise<object> {
    const found = Object.hasOwn(MODULES, specifier) ? MODULES[specifier as Held] : undefined;
    if (found) return Promise.resolve(found);
    return Promise.reject(
      new Error(
        `'${specifier}' is not in this page; it holds ${Object.keys(MODULES)
          .map((m) => `'${m}'`)
          .join(', ')}`,
      ),
    );
  }
  emit(event: CellEvent, run: Run | undefined): void {
    this.scope.postMessage({ type: 'event', run: run?.id, event: plain(event) });
  }
  inRun<T>(run: Run, body: () => T): T {
    this.#run = run;
    return body();
  }
  currentRun(): Run | undefined {
    return this.#run;
  }
}

/** View data may hold values of ours, which a message cannot carry: they travel as their JSON. */
const plain = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/** Makes a worker of this script: answers `start` once and then runs cells in order. */
export function startWorker(scope: WorkerScope): void {
  const host = new PageHost(scope);
  const write = (name: 'stdout' | 'stderr', text: string) =>
    host.emit({ type: 'stream', name, text }, host.currentRun());
  Object.assign(console, makeConsole(write));
  Object.defineProperty(globalThis, 'display', { value: makeDisplay(host), configurable: true });
  // Everything but cells is the page's own code here.
  const session = new CellSession(host, { isInternal: (file) => !file.startsWith('In[') });
  let queue: Promise<unknown> = Promise.resolve();
  scope.onmessage = ({ data: message }) => {
    queue = queue.then(async () => {
      if (message.type === 'start') {
        if (message.ephemeris)
          library.provideEphemeris(library.ephemerisFromBytes(message.ephemeris, message.name));
        scope.postMessage({ type: 'ready' });
      } else {
        const outcome = await session.run({ id: message.run, label: message.label }, message.code);
        scope.postMessage({ type: 'done', run: message.run, outcome: plain(outcome) });
      }
    });
  };
}
