import { fork, type ChildProcess } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import type { CellEvent, Outcome } from '../../cells/index.js';
import { packageRoot } from '../../kernel/modules/package-root.js';
import { codeCache } from './code-cache.js';
import type { FromSandbox, ToSandbox } from './messages.js';
import { nodeArguments, v8Flags, type Limits } from './permissions.js';
import { withinProcessorTime } from './processor-time.js';

export interface SandboxOptions extends Partial<Limits> {
  readonly folder: string;
  /** Longest time for one cell, in milliseconds. */
  readonly timeoutMs?: number;
  /** Longest time on the processor for all cells together; kept by the system, so it holds when nobody watches any more. */
  readonly processorSeconds?: number;
  /** Failed checks are errors, and checks are reported. */
  readonly marks?: boolean;
}

/** What came of one cell. */
export interface CellResult {
  readonly outcome: Outcome;
  readonly events: readonly CellEvent[];
  readonly values: Readonly<Record<string, string>>;
  /** Feedback of the checks in it, as JSON. */
  readonly checked: readonly unknown[];
}

/** A lesson's own cell on a slow or busy machine; what must be stopped sooner says so. */
const TIMEOUT_MS = 120_000;
const MEMORY_MB = 256;
const PROCESSOR_SECONDS = 600;
const MOST_OUTPUT = 5_000_000;

/**
 * A process that runs cells within limits. It reads only the program and its folder, writes nowhere (or in one
 * folder), starts no other process, has a limit of time for each cell, of memory, and (not on Windows) of time on the processor, which
 * ends it also when whoever started it has been killed.
 * It does not hold back: the use of the network, and of the processor up to the limits; nor a flaw in Node's
 * permission model, which Node calls no guard against malicious code. Run unknown people's code on a machine that
 * holds nothing of value.
 */
export class Sandbox {
  readonly #child: ChildProcess;
  readonly #ready: Promise<void>;
  readonly #timeoutMs: number;
  #onMessage: (message: FromSandbox) => void = () => {};
  #onDeath: (reason: string) => void = () => {};
  #dead: string | undefined;

  constructor({
    folder,
    writable,
    memoryMb = MEMORY_MB,
    timeoutMs = TIMEOUT_MS,
    processorSeconds = PROCESSOR_SECONDS,
    marks,
  }: SandboxOptions) {
    this.#timeoutMs = timeoutMs;
    const limits = { folder, memoryMb, ...(writable ? { writable } : {}) };
    const folderOfProgram = programFolder();
    const code = codeCache(folderOfProgram, v8Flags(memoryMb));
    const words = [...(marks ? ['--marks'] : []), ...(code ? ['--code', code] : [])];
    this.#child = fork(path.join(folderOfProgram, 'sandbox.cjs'), words, {
      cwd: folder,
      ...withinProcessorTime(nodeArguments(limits), processorSeconds),
      serialization: 'advanced',
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
      env: { PATH: process.env['PATH'] ?? '', HOME: folder, TZ: 'UTC' },
    });
    let complaint = '';
    this.#child.stderr?.on('data', (chunk: Buffer) => {
      complaint = (complaint + chunk.toString('utf8')).slice(-2000);
    });
    this.#ready = new Promise((resolve, reject) => {
      this.#onMessage = (message) => message.type === 'ready' && resolve();
      this.#onDeath = (reason) => reject(new Error(reason));
    });
    this.#ready.catch(() => {});
    this.#child.on('message', (message: FromSandbox) => this.#onMessage(message));
    this.#child.on('error', (error) => this.#die(error.message));
    this.#child.on('exit', (code, signal) =>
      this.#die(deathNote(code, signal, complaint, memoryMb)),
    );
  }

  /** Runs a cell. Its failure, an overrun of time or memory, and the end of the process are outcomes, not exceptions. */
  async run(cell: string, label: string, code: string, keep = false): Promise<CellResult> {
    const events: CellEvent[] = [];
    const checked: unknown[] = [];
    let size = 0;
    const failed = (evalue: string): CellResult => ({
      outcome: {
        status: 'error',
        error: { ename: 'Stopped', evalue, traceback: [`Stopped: ${evalue}`] },
      },
      events,
      values: {},
      checked,
    });
    try {
      await this.#ready;
    } catch (error) {
      return failed((error as Error).message);
    }
    if (this.#dead) return failed(this.#dead);
    return new Promise((resolve) => {
      const end = (result: CellResult) => {
        clearTimeout(timer);
        this.#onDeath = () => {};
        resolve(result);
      };
      const timer = setTimeout(
        () => this.#kill(`the cell did not end within ${this.#timeoutMs / 1000} s`),
        this.#timeoutMs,
      );
      this.#onDeath = (reason) => end(failed(reason));
      this.#onMessage = (message) => {
        if (message.type === 'event') {
          size += JSON.stringify(message.event).length;
          if (size > MOST_OUTPUT) this.#kill(`the cell printed more than ${MOST_OUTPUT / 1e6} MB`);
          else events.push(message.event);
        } else if (message.type === 'checked') checked.push(message.feedback);
        else if (message.type === 'done' && message.cell === cell)
          end({ outcome: message.outcome, events, values: message.values, checked });
      };
      this.#child.send({ cell, label, code, keep } satisfies ToSandbox);
    });
  }
  end(): void {
    this.#dead ??= 'the process has been ended';
    this.#child.kill('SIGKILL');
  }

  #kill(reason: string): void {
    this.#die(reason);
    this.#child.kill('SIGKILL');
  }
  #die(reason: string): void {
    if (this.#dead) return;
    this.#dead = reason;
    this.#onDeath(reason);
  }
}

function deathNote(
  code: number | null,
  signal: string | null,
  complaint: string,
  memoryMb: number,
): string {
  if (/heap out of memory|Allocation failed/.test(complaint))
    return `the cells used more than ${memoryMb} MB of memory`;
  if (signal === 'SIGXCPU' || signal === 'SIGKILL')
    return 'the cells used more time on the processor than they have';
  const last = complaint.trim().split('\n').at(-1) ?? '';
  return `the process that ran the cell ended (${signal ?? `code ${code}`})${last && `: ${last}`}`;
}

function programFolder(): string {
  const dist = path.join(packageRoot(), 'dist');
  for (const name of ['sandbox.cjs', 'sandbox-program.js'])
    if (!fs.existsSync(path.join(dist, name)))
      throw new Error(
        `${path.join(dist, name)} is missing: the program that runs cells has not been built (npm run build)`,
      );
  return dist;
}
