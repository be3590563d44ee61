import type { MessagePort } from 'node:worker_threads';
import type { TypeEngine } from '../../cells/index.js';

type Method = keyof TypeEngine;

interface Question {
  readonly id: number;
  readonly method: Method;
  readonly args: readonly unknown[];
}

type Answer = { readonly id: number; readonly value?: unknown; readonly error?: string };

/** The two sides of a message channel, in the shape that ports and workers share. */
type Port = Pick<MessagePort, 'postMessage' | 'on'>;

/** A type engine that lives in another thread. */
export function remoteTypeEngine(port: Port): TypeEngine {
  const waiting = new Map<number, { resolve(value: unknown): void; reject(error: Error): void }>();
  let last = 0;
  port.on('message', ({ id, value, error }: Answer) => {
    const caller = waiting.get(id);
    waiting.delete(id);
    if (error === undefined) caller?.resolve(value);
    else caller?.reject(new Error(error));
  });
  const ask =
    (method: Method) =>
    (...args: unknown[]) =>
      new Promise((resolve, reject) => {
        waiting.set(++last, { resolve, reject });
        port.postMessage({ id: last, method, args } satisfies Question);
      });
  const methods: Method[] = ['check', 'commit', 'complete', 'inspect'];
  return Object.fromEntries(methods.map((m) => [m, ask(m)])) as unknown as TypeEngine;
}

/** Answers the questions that come through a port. */
export function serveTypeEngine(port: Port, engine: TypeEngine): void {
  port.on('message', ({ id, method, args }: Question) => {
    const call = engine[method] as (...args: readonly unknown[]) => Promise<unknown>;
    void call.apply(engine, args as unknown[]).then(
      (value) => port.postMessage({ id, value } satisfies Answer),
      (error: unknown) => port.postMessage({ id, error: String(error) } satisfies Answer),
    );
  });
}
