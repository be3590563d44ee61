/** The worker that judges types: TypeScript and the declarations of what a page can import. */
import ts from 'typescript';
import { LanguageServiceEngine, serveTypeEngine } from '../../cells/index.js';
import { WORKER_GLOBALS } from './worker-globals.js';

declare const DECLARATIONS_FILE: string;

interface Scope {
  readonly location: { readonly href: string };
  onmessage: ((event: MessageEvent<{ ports: MessagePort[] }>) => void) | null;
}

const scope = globalThis as unknown as Scope;

async function load(): Promise<LanguageServiceEngine> {
  const answer = await fetch(new URL(DECLARATIONS_FILE, scope.location.href));
  const files = (await answer.json()) as Record<string, string>;
  const engine = new LanguageServiceEngine(ts, files, WORKER_GLOBALS);
  await engine.check('start', '1');
  return engine;
}

const loading = load();
scope.onmessage = ({ data: { ports } }) => {
  void loading.then((engine) => {
    for (const port of ports) {
      const listen = (listener: (message: unknown) => void): void => {
        port.onmessage = ({ data }) => listener(data);
      };
      serveTypeEngine({ post: (message) => port.postMessage(message), listen }, engine);
    }
  });
};
