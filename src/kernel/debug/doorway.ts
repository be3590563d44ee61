import { loadPart } from '../parts.js';
import type { DebugAdapter, KernelLink } from './adapter.js';
import { CellFiles } from './cell-files.js';
import { debugInfo } from './debug-info.js';
import type { DebugReply, DebugRequest } from './protocol.js';

/** Reads the debugger when a client wants to debug; JupyterLab only asks each kernel whether one is started. */
export class DebugDoorway {
  readonly #files = new CellFiles();
  #adapter: DebugAdapter | null = null;

  constructor(private readonly kernel: KernelLink) {}

  async answer(request: DebugRequest): Promise<DebugReply> {
    const { command, seq: request_seq } = request;
    if (!this.#adapter && command === 'debugInfo') {
      const body = debugInfo(this.#files);
      return { type: 'response', seq: 0, request_seq, command, success: true, body };
    }
    this.#adapter ??= new (loadPart('debugger').DebugAdapter)(this.kernel, this.#files);
    return this.#adapter.answer(request);
  }

  /** Told when the cells' thread has ended a cell. */
  cellEnded(): void {
    this.#adapter?.cellEnded();
  }

  /** To be called before the kernel ends. */
  shutDown(): void {
    this.#adapter?.shutDown();
  }
}
