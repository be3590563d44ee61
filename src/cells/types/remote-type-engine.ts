import type { TypeEngine } from './type-engine.js';

type Method = keyof TypeEngine;

interface Question {
  readonly id: number;
  readonly method: Method;
  readonly args: readonly unknown[];
}

type Answer = { readonly id: number; readonly value?: unknown; readonly error?: string };

/** One end of a line to another thread; Node's ports and the browser's differ in how they listen. */
export interface Line {
  post(message: unknown): void;
  listen(listener: (message: unknown) => void): void;
}

/** A type engine that lives in another thread. */
export function remoteTypeEngine(line: Line): TypeEngine {
  const waiting = new Map<number, { resolve(value: unknown): void; reject(error: Error): void }>();
  let last = 0;
  line.listen((message) => {
    const { id, value, error } = message as Answer;
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
        line.post({ id: last, method, args } satisfies Question);
      });
  const methods: Method[] = ['check', 'commit', 'complete', 'inspect'];
  return Object.fromEntries(methods.map((m) => [m, ask(m)])) as unknown as TypeEngine;
}

/** Answers the questions that come through a line, in their order. */
export function serveTypeEngine(line: Line, engine: TypeEngine): void {
  line.listen((message) => {
    const { id, method, args } = message as Question;
    const call = engine[method] as (...args: readonly unknown[]) => Promise<unknown>;
    void call.apply(engine, args as unknown[]).then(
      (value) => line.post({ id, value } satisfies Answer),
      (error: unknown) => line.post({ id, error: String(error) } satisfies Answer),
    );
  });
}
