import inspector from 'node:inspector';

/** A value as V8's inspector hands it out. */
export type Remote = inspector.Runtime.RemoteObject;

export type Listener<T> = (params: T) => void;

interface Answer<T> {
  readonly result: Remote & { readonly value?: T };
  readonly exceptionDetails?: inspector.Runtime.ExceptionDetails;
}

/** What V8 refused, or what an evaluated expression threw. */
export class InspectorError extends Error {}

/** V8's inspector of the thread that runs cells, used from the front thread. */
export class CellsInspector {
  readonly #session = new inspector.Session();
  readonly #waiting = new Set<(reason: Error) => void>();
  #view: Promise<Remote> | null = null;

  open(): void {
    this.#session.connectToMainThread();
  }

  /** Leaves the thread to itself; a thread that is stopped goes on. */
  close(): void {
    this.#session.disconnect();
    for (const refuse of this.#waiting) refuse(new InspectorError('the debugger has ended'));
    this.#waiting.clear();
  }

  on<T>(event: string, listener: Listener<T>): void {
    this.#session.on(event, (message: { params: T }) => listener(message.params));
  }

  post<T = object>(method: string, params: object = {}): Promise<T> {
    return new Promise((resolve, reject) => {
      this.#waiting.add(reject);
      this.#session.post(method, params, (error: unknown, result?: object) => {
        this.#waiting.delete(reject);
        if (error) reject(new InspectorError((error as Error).message));
        else resolve((result ?? {}) as T);
      });
    });
  }

  /** Calls a method of `CellsView` with plain values; stops nowhere, whether the thread runs or not. */
  async ask<T>(method: string, ...values: readonly unknown[]): Promise<T> {
    const list = values.map((value) => JSON.stringify(value)).join(', ');
    return this.evaluate<T>(`__cell.debug.${method}(${list})`);
  }

  /**
   * Value of an expression in the global scope, as JSON holds it. A thread that stands still keeps
   * no promises: there `awaitPromise` would wait for ever, for any value.
   */
  async evaluate<T>(expression: string, awaitPromise = false): Promise<T> {
    const options = { returnByValue: true, awaitPromise, disableBreaks: true, silent: true };
    return valueOf(await this.post<Answer<T>>('Runtime.evaluate', { expression, ...options }));
  }

  /** Calls a method of `CellsView` with values of the stopped thread. */
  async askOf<T>(method: string, ...values: readonly Argument[]): Promise<T> {
    const { objectId } = await (this.#view ??= this.#findView());
    const functionDeclaration = `function (...list) { return this.${method}(...list); }`;
    const options = { functionDeclaration, objectId, returnByValue: true, silent: true };
    const params = { ...options, arguments: values.map(argumentOf) };
    return valueOf(await this.post<Answer<T>>('Runtime.callFunctionOn', params));
  }

  async #findView(): Promise<Remote> {
    const params = { expression: '__cell.debug', disableBreaks: true };
    return (await this.post<Answer<unknown>>('Runtime.evaluate', params)).result;
  }
}

/** A value of the thread, or a plain one. */
export type Argument = { readonly remote: Remote } | { readonly plain: unknown };

function argumentOf(argument: Argument): object {
  if ('plain' in argument) return { value: argument.plain };
  const { objectId, unserializableValue, value } = argument.remote;
  if (objectId) return { objectId };
  return unserializableValue ? { unserializableValue } : { value: value as unknown };
}

function valueOf<T>({ result, exceptionDetails }: Answer<T>): T {
  if (exceptionDetails) throw new InspectorError(textOf(exceptionDetails));
  return result.value as T;
}

/** The first line of what was thrown. */
export function textOf({ text, exception }: inspector.Runtime.ExceptionDetails): string {
  const said = exception?.description ?? String(exception?.value ?? text);
  return said.split('\n    at ')[0] ?? said;
}
