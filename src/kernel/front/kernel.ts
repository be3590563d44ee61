import type { Router } from 'zeromq';
import type { CommContent, TypeEngine } from '../../cells/index.js';
import { DebugDoorway } from '../debug/doorway.js';
import type { DebugRequest } from '../debug/protocol.js';
import type { FromCells } from '../messages.js';
import { completeReply, inspectReply } from './answers.js';
import type { CellsLink } from './cells-link.js';
import { Executor } from './executor.js';
import { History, type HistoryRequest } from './history.js';
import { kernelInfo } from './kernel-info.js';
import { Parents } from './parents.js';
import { loadPart } from '../parts.js';
import { Publisher } from './publisher.js';
import type { Sockets } from './sockets.js';
import type { Message, Wire } from './wire.js';

/** Requests that wait for the cells before them; all others are answered at once. */
const QUEUED = new Set(['execute_request', 'comm_open', 'comm_msg', 'comm_close']);

interface Queued {
  readonly message: Message;
  aborted: boolean;
}

/** Answers the requests of Jupyter's clients. */
export class Kernel {
  readonly publisher: Publisher;
  readonly #parents = new Parents();
  readonly #history = new History();
  readonly #executor: Executor;
  readonly #queue: Queued[] = [];
  readonly #comms = new Map<string, string>();
  readonly #debugger: DebugDoorway;
  #running: Message | null = null;
  #debugRequest: Message | null = null;

  constructor(
    private readonly sockets: Sockets,
    private readonly wire: Wire,
    private readonly link: CellsLink,
    private readonly types: TypeEngine,
    private readonly onShutdown: () => void,
  ) {
    this.publisher = new Publisher(sockets.iopub, wire);
    this.#executor = new Executor(link, this.publisher, this.#history);
    this.#debugger = new DebugDoorway({
      publish: (event) => this.publisher.send('debug_event', event, this.#debugRequest?.header),
      isInterrupting: () => link.isInterrupting,
    });
  }

  /** A message on the shell or control channel. */
  receive(socket: Router, message: Message): void {
    this.#parents.add(message);
    if (!QUEUED.has(message.header.msg_type)) return void this.#answer(socket, message);
    this.#queue.push({ message, aborted: false });
    if (!this.#running) void this.#work();
  }

  /** What a cell sends besides its end. */
  fromCells(message: FromCells): void {
    if (message.type === 'event') {
      const { event, run } = message;
      if (event.type === 'comm') this.#noteComm(event.kind, event.content);
      this.publisher.event(event, this.#parents.header(run));
    } else if (message.type === 'prompt') this.#prompt(message);
    else if (message.type === 'signal') this.interrupt();
  }

  interrupt(): void {
    this.#abortQueue();
    this.link.interrupt(this.#running?.header.msg_id);
  }

  async #work(): Promise<void> {
    for (let next = this.#queue.shift(); next; next = this.#queue.shift()) {
      this.#running = next.message;
      await this.#answer(this.sockets.shell, next.message, next.aborted);
    }
    this.#running = null;
  }

  async #answer(socket: Router, message: Message, aborted = false): Promise<void> {
    const { header } = message;
    this.publisher.status('busy', header);
    try {
      const reply = aborted ? { status: 'aborted' } : await this.#reply(message);
      if (reply) this.#send(socket, message, header.msg_type.replace('_request', '_reply'), reply);
    } catch (error) {
      const { name, message: evalue } = error as Error;
      const reply = { status: 'error', ename: name, evalue, traceback: [`${name}: ${evalue}`] };
      this.#send(socket, message, header.msg_type.replace('_request', '_reply'), reply);
    }
    this.publisher.status('idle', header);
    const running = this.#running;
    if (running && running !== message) this.publisher.status('busy', running.header);
    if (header.msg_type !== 'shutdown_request') return;
    this.#debugger.shutDown();
    this.onShutdown();
  }

  async #reply(message: Message): Promise<object | null> {
    const { header, content } = message;
    const { code = '', cursor_pos: cursor = 0 } = content as { code?: string; cursor_pos?: number };
    switch (header.msg_type) {
      case 'kernel_info_request':
        return kernelInfo();
      case 'execute_request':
        return this.#execute(message);
      case 'complete_request':
        return completeReply(this.types, code, cursor);
      case 'inspect_request':
        return inspectReply(this.types, code, cursor);
      case 'is_complete_request':
        return loadPart('is-complete').isComplete(code);
      case 'history_request':
        return { status: 'ok', history: this.#history.find(content as HistoryRequest) };
      case 'debug_request':
        this.#debugRequest = message;
        return this.#debugger.answer(content as unknown as DebugRequest);
      case 'comm_info_request':
        return this.#commInfo(content['target_name'] as string | undefined);
      case 'comm_open':
      case 'comm_msg':
      case 'comm_close':
        await this.#comm(message, header.msg_type);
        return null;
      case 'interrupt_request':
        this.interrupt();
        return { status: 'ok' };
      case 'shutdown_request': {
        const reply = { status: 'ok', restart: content['restart'] === true };
        this.publisher.send('shutdown_reply', reply, header);
        return reply;
      }
      default:
        return null;
    }
  }

  async #execute(message: Message): Promise<object> {
    const { reply, stopsQueue } = await this.#executor.execute(message);
    this.#debugger.cellEnded();
    if (stopsQueue) this.#abortQueue();
    return reply;
  }

  #abortQueue(): void {
    for (const queued of this.#queue)
      if (queued.message.header.msg_type === 'execute_request') queued.aborted = true;
  }

  async #comm(message: Message, kind: 'comm_open' | 'comm_msg' | 'comm_close'): Promise<void> {
    const content = message.content as unknown as CommContent;
    this.#noteComm(kind, content);
    const { header, metadata, buffers } = message;
    await this.link.comm({ type: 'comm', run: header.msg_id, kind, content, metadata, buffers });
  }

  #noteComm(kind: string, { comm_id, target_name = '' }: CommContent): void {
    if (kind === 'comm_open') this.#comms.set(comm_id, target_name);
    if (kind === 'comm_close') this.#comms.delete(comm_id);
  }

  #commInfo(target: string | undefined): object {
    const chosen = [...this.#comms].filter(([, name]) => !target || name === target);
    const comms = Object.fromEntries(chosen.map(([id, name]) => [id, { target_name: name }]));
    return { status: 'ok', comms };
  }

  #prompt({ run, prompt, password }: Extract<FromCells, { type: 'prompt' }>): void {
    const message = this.#parents.message(run);
    if (!message?.content['allow_stdin']) return this.link.answer(null);
    this.publisher.flush();
    const content = { prompt, password };
    const frames = this.wire.frames({
      type: 'input_request',
      content,
      parent: message.header,
      ids: message.ids,
    });
    void this.sockets.stdin.send(frames as Buffer[]);
  }

  #send(socket: Router, to: Message, type: string, content: object): void {
    this.publisher.flush();
    const frames = this.wire.frames({ type, content, parent: to.header, ids: to.ids });
    void socket.send(frames as Buffer[]).catch(() => undefined);
  }
}
