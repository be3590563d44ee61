import type { XPublisher } from 'zeromq';
import type { CellEvent } from '../../cells/index.js';
import type { Header, Wire } from './wire.js';

/** Stream text is collected for this long, so that many short lines make few messages. */
const GATHER_MS = 20;
const GATHER_LENGTH = 64 * 1024;

interface Gathered {
  readonly name: 'stdout' | 'stderr';
  readonly parent: Header | undefined;
  text: string[];
  length: number;
}

/** Publishes what cells put out, in the order it was put out. */
export class Publisher {
  #gathered: Gathered | null = null;
  #timer: NodeJS.Timeout | undefined;

  constructor(
    private readonly socket: XPublisher,
    private readonly wire: Wire,
  ) {}

  send(
    type: string,
    content: object,
    parent?: Header,
    metadata: object = {},
    buffers: readonly Uint8Array[] = [],
  ): void {
    this.flush();
    this.#send(type, content, parent, metadata, buffers);
  }

  status(state: 'starting' | 'busy' | 'idle', parent?: Header): void {
    this.send('status', { execution_state: state }, parent);
  }

  event(event: CellEvent, parent: Header | undefined): void {
    switch (event.type) {
      case 'stream':
        return this.#stream(event.name, event.text, parent);
      case 'display': {
        const { data, metadata, id } = event;
        const content = { data, metadata, transient: id ? { display_id: id } : {} };
        return this.send(event.update ? 'update_display_data' : 'display_data', content, parent);
      }
      case 'clear':
        return this.send('clear_output', { wait: event.wait }, parent);
      case 'error':
        return this.send('error', event.error, parent);
      case 'comm':
        return this.send(event.kind, event.content, parent, event.metadata ?? {}, event.buffers);
    }
  }

  /** Sends the text gathered so far. */
  flush(): void {
    const gathered = this.#gathered;
    if (!gathered) return;
    this.#gathered = null;
    clearTimeout(this.#timer);
    const { name, text, parent } = gathered;
    this.#send('stream', { name, text: text.join('') }, parent, {}, []);
  }

  #stream(name: 'stdout' | 'stderr', text: string, parent: Header | undefined): void {
    if (this.#gathered?.name !== name || this.#gathered.parent !== parent) this.flush();
    if (!this.#gathered) {
      this.#gathered = { name, parent, text: [], length: 0 };
      this.#timer = setTimeout(() => this.flush(), GATHER_MS);
    }
    this.#gathered.text.push(text);
    this.#gathered.length += text.length;
    if (this.#gathered.length > GATHER_LENGTH) this.flush();
  }

  #send(
    type: string,
    content: object,
    parent: Header | undefined,
    metadata: object,
    buffers: readonly Uint8Array[],
  ): void {
    const frames = this.wire.frames({ type, content, parent, metadata, buffers, ids: [type] });
    void this.socket.send(frames as Buffer[]).catch(() => undefined);
  }
}
