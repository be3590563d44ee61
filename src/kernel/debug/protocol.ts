/** The messages of the Debug Adapter Protocol that travel in `debug_request`, `debug_reply` and `debug_event`. */

export interface DebugRequest {
  readonly type: 'request';
  readonly seq: number;
  readonly command: string;
  readonly arguments?: Readonly<Record<string, unknown>>;
}

export interface DebugEvent {
  readonly type: 'event';
  readonly seq: number;
  readonly event: string;
  readonly body: object;
}

export interface DebugReply {
  readonly type: 'response';
  readonly seq: number;
  readonly request_seq: number;
  readonly command: string;
  readonly success: boolean;
  readonly message?: string;
  readonly body: object;
}

export interface Source {
  readonly name: string;
  readonly path: string;
}

/** A value as a client lists it; a `variablesReference` above 0 can be asked for what is in it. */
export interface Variable {
  readonly name: string;
  readonly value: string;
  readonly evaluateName: string;
  readonly variablesReference: number;
}

/** The one thread that a client sees: the one that runs cells. */
export const THREAD = { id: 1, name: 'cells' } as const;

/** A request that cannot be done as it was asked; the message says why. */
export class RefusedRequest extends Error {}
