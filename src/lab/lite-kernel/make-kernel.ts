import { completeReply, inspectReply } from '../../kernel/front/answers.js';
import type { CellEvent } from '../../cells/index.js';
import type { BaseKernel, Header, KernelOptions, LiteServices } from './lite-services.js';
import type { CommKind } from './messages.js';
import { WorkerLink } from './worker-link.js';

declare const PACKAGE_VERSION: string;

type Content = Record<string, unknown>;
type CommMessage = {
  header: Header;
  content: Content & { comm_id: string; data: unknown };
  metadata: Content;
  buffers?: ArrayBuffer[];
};

const INFO = {
  status: 'ok',
  protocol_version: '5.4',
  implementation: 'cocked-hat',
  implementation_version: PACKAGE_VERSION,
  banner: `Cocked Hat ${PACKAGE_VERSION}: TypeScript in this page`,
  help_links: [],
  language_info: {
    name: 'typescript',
    version: '5.9',
    mimetype: 'application/typescript',
    file_extension: '.ts',
    codemirror_mode: { name: 'typescript', typescript: true },
    pygments_lexer: 'typescript',
    nbconvert_exporter: 'script',
  },
};

/** The class of our kernel, made from the base class that this JupyterLite shares. */
export function makeKernelClass({ BaseKernel: Base }: LiteServices, base: string) {
  return class extends Base {
    readonly #link: WorkerLink;
    readonly #parents = new Map<string, Header | undefined>();
    #runs = 0;

    constructor(options: KernelOptions) {
      super(options);
      this.#link = new WorkerLink(base, (run, event) => this.#publish(run, event));
    }

    override dispose(): void {
      if (this.isDisposed) return;
      this.#link.end();
      super.dispose();
    }

    async kernelInfoRequest(): Promise<object> {
      return INFO;
    }

    async executeRequest({ code }: { code: string }): Promise<object> {
      const execution_count = this.executionCount;
      const run = this.#newRun();
      const outcome = await this.#link.run(run, `In[${execution_count}]`, code);
      if (outcome.status === 'error') {
        const error = { ...outcome.error, traceback: [...outcome.error.traceback] };
        this.publishExecuteError(error);
        return { status: 'error', execution_count, ...error };
      }
      const { result } = outcome;
      if (result) this.publishExecuteResult({ execution_count, ...result });
      return { status: 'ok', execution_count, user_expressions: {} };
    }

    async completeRequest({ code, cursor_pos }: { code: string; cursor_pos: number }) {
      const none = { status: 'ok', matches: [], cursor_start: cursor_pos, cursor_end: cursor_pos };
      const { types } = this.#link;
      return types ? completeReply(types, code, cursor_pos) : { ...none, metadata: {} };
    }

    async inspectRequest({ code, cursor_pos }: { code: string; cursor_pos: number }) {
      const { types } = this.#link;
      if (types) return inspectReply(types, code, cursor_pos);
      return { status: 'ok', found: false, data: {}, metadata: {} };
    }

    async isCompleteRequest({ code }: { code: string }): Promise<object> {
      // Only consoles ask; its parsers are larger than all the rest.
      const { isComplete } = await import('../../kernel/front/is-complete.js');
      return isComplete(code);
    }

    async commInfoRequest(): Promise<object> {
      return { status: 'ok', comms: {} };
    }

    inputReply(): void {}

    commOpen(message: CommMessage): Promise<unknown> {
      return this.#comm('comm_open', message);
    }

    commMsg(message: CommMessage): Promise<unknown> {
      return this.#comm('comm_msg', message);
    }

    commClose(message: CommMessage): Promise<unknown> {
      return this.#comm('comm_close', message);
    }

    #comm(kind: CommKind, { content, metadata, buffers = [] }: CommMessage): Promise<unknown> {
      const bytes = buffers.map((b) => new Uint8Array(b));
      return this.#link.comm(this.#newRun(), kind, content, { metadata, buffers: bytes });
    }

    #newRun(): string {
      const run = String(++this.#runs);
      this.#parents.set(run, this.parentHeader);
      return run;
    }

    #publish(run: string | undefined, event: CellEvent): void {
      const parent = this.#parents.get(run ?? '');
      if (event.type === 'stream') {
        const { name, text } = event;
        this.stream({ name, text }, parent);
      } else if (event.type === 'display') {
        const { data, metadata, id, update } = event;
        const content = { data, metadata, transient: id ? { display_id: id } : {} };
        if (update) this.updateDisplayData(content, parent);
        else this.displayData(content, parent);
      } else if (event.type === 'clear') this.clearOutput({ wait: event.wait }, parent);
      else if (event.type === 'error')
        this.publishExecuteError({ ...event.error, traceback: [...event.error.traceback] }, parent);
      else {
        const buffers = [...(event.buffers ?? [])];
        this.handleComm(event.kind, { ...event.content }, event.metadata ?? {}, buffers, parent);
      }
    }
  } as new (options: KernelOptions) => BaseKernel;
}
