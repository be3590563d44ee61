import { plainJson } from '../values/bundle.js';
import type { CommContent } from './events.js';
import type { CellHost } from './host.js';

type Handler<T> = (value: T) => void;

export interface CommMessage {
  readonly data: unknown;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly buffers: readonly Uint8Array[];
}

/** One end of a channel between the kernel and the page. */
export class Comm {
  /** Called with each message from the page. */
  onMessage: Handler<CommMessage> | null = null;
  /** Called when the page closes the channel. */
  onClose: Handler<CommMessage> | null = null;

  constructor(
    readonly target: string,
    readonly id: string,
    private readonly post: (
      kind: 'comm_open' | 'comm_msg' | 'comm_close',
      content: CommContent,
      buffers: readonly Uint8Array[],
    ) => void,
  ) {}

  send(data: unknown, buffers: readonly Uint8Array[] = []): void {
    this.post('comm_msg', { comm_id: this.id, data }, buffers);
  }

  close(data: unknown = {}): void {
    this.post('comm_close', { comm_id: this.id, data }, []);
  }
}

/** The channels of a session, and what answers when the page opens one. */
export class Comms {
  readonly #open = new Map<string, Comm>();
  readonly #targets = new Map<string, (comm: Comm, opened: CommMessage) => void>();

  constructor(private readonly host: CellHost) {}

  /** Names what answers when the page opens a channel to `target`. */
  register(target: string, answer: (comm: Comm, opened: CommMessage) => void): void {
    this.#targets.set(target, answer);
  }

  /** Opens a channel to the page. */
  open(target: string, data: unknown = {}, buffers: readonly Uint8Array[] = []): Comm {
    const comm = this.#make(target, crypto.randomUUID());
    const content = { comm_id: comm.id, target_name: target, data };
    this.#post('comm_open', content, buffers);
    return comm;
  }

  /** A message from the page. An open to a target that nothing answers is closed at once. */
  receive(
    kind: 'comm_open' | 'comm_msg' | 'comm_close',
    content: CommContent,
    message: CommMessage,
  ) {
    const { comm_id: id, target_name: target = '' } = content;
    if (kind === 'comm_open') {
      const answer = this.#targets.get(target);
      if (!answer) return this.#post('comm_close', { comm_id: id, data: {} }, []);
      return answer(this.#make(target, id), message);
    }
    const comm = this.#open.get(id);
    if (kind === 'comm_msg') return comm?.onMessage?.(message);
    this.#open.delete(id);
    comm?.onClose?.(message);
  }

  #make(target: string, id: string): Comm {
    const comm = new Comm(target, id, (kind, content, buffers) => {
      if (kind === 'comm_close') this.#open.delete(content.comm_id);
      this.#post(kind, content, buffers);
    });
    this.#open.set(id, comm);
    return comm;
  }

  #post(
    kind: 'comm_open' | 'comm_msg' | 'comm_close',
    content: CommContent,
    buffers: readonly Uint8Array[],
  ): void {
    const plain = { ...content, data: plainJson(content.data) };
    this.host.emit({ type: 'comm', kind, content: plain, buffers }, this.host.currentRun());
  }
}
