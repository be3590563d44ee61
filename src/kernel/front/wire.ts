import { createHmac, randomUUID, timingSafeEqual } from 'node:crypto';

export interface Header {
  readonly msg_id: string;
  readonly msg_type: string;
  readonly session: string;
  readonly username: string;
  readonly date: string;
  readonly version: string;
}

/** A message from a client; `ids` says where its answer goes. */
export interface Message {
  readonly ids: readonly Buffer[];
  readonly header: Header;
  readonly metadata: Record<string, unknown>;
  readonly content: Record<string, unknown>;
  readonly buffers: readonly Buffer[];
}

export interface Outgoing {
  readonly type: string;
  readonly content: object;
  readonly parent?: Header | undefined;
  readonly ids?: readonly (Buffer | string)[];
  readonly metadata?: object;
  readonly buffers?: readonly Uint8Array[];
}

const DELIMITER = Buffer.from('<IDS|MSG>');
export const PROTOCOL_VERSION = '5.4';

/** Writes and reads messages as frames, signed with the connection's key. */
export class Wire {
  readonly #session = randomUUID();
  readonly #seen = new Set<string>();

  constructor(private readonly key: string) {}

  frames({ type, content, parent, ids = [], metadata = {}, buffers = [] }: Outgoing) {
    const header: Header = {
      msg_id: randomUUID(),
      msg_type: type,
      session: this.#session,
      username: 'kernel',
      date: new Date().toISOString(),
      version: PROTOCOL_VERSION,
    };
    const parts = [header, parent ?? {}, metadata, content].map((p) =>
      Buffer.from(JSON.stringify(p)),
    );
    return [...ids, DELIMITER, this.#sign(parts), ...parts, ...buffers];
  }

  /** The message in a list of frames; null if it is not one, is signed wrongly or was seen before. */
  read(frames: readonly Buffer[]): Message | null {
    const at = frames.findIndex((frame) => frame.equals(DELIMITER));
    const signature = frames[at + 1];
    const parts = frames.slice(at + 2, at + 6);
    if (at < 0 || !signature || parts.length < 4) return null;
    if (!this.#isSigned(parts, signature) || this.#isRepeated(signature)) return null;
    try {
      const [header, , metadata, content] = parts.map((p) => JSON.parse(p.toString()) as object);
      const buffers = frames.slice(at + 6);
      return { ids: frames.slice(0, at), header, metadata, content, buffers } as Message;
    } catch {
      return null;
    }
  }

  #sign(parts: readonly Buffer[]): string {
    if (!this.key) return '';
    const hmac = createHmac('sha256', this.key);
    for (const part of parts) hmac.update(part);
    return hmac.digest('hex');
  }

  #isSigned(parts: readonly Buffer[], signature: Buffer): boolean {
    const expected = Buffer.from(this.#sign(parts));
    return signature.length === expected.length && timingSafeEqual(signature, expected);
  }

  /** A recorded message must not be played back. */
  #isRepeated(signature: Buffer): boolean {
    if (!this.key) return false;
    const text = signature.toString();
    if (this.#seen.has(text)) return true;
    this.#seen.add(text);
    const [oldest] = this.#seen;
    if (this.#seen.size > 10_000 && oldest) this.#seen.delete(oldest);
    return false;
  }
}
