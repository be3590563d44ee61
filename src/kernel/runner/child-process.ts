import { fork, type ChildProcess } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import type { CellEvent, Outcome } from '../../cells/index.js';
import type { FromCells, ToCells } from '../messages.js';
import { packageRoot } from '../modules/package-root.js';

export type EventListener = (run: string | undefined, event: CellEvent) => void;

/** A process that runs cells, one after the other. */
export class CellProcess {
  readonly #child: ChildProcess;
  #settle: ((outcome: Outcome | Error) => void) | null = null;

  constructor(cwd: string, onEvent: EventListener, program = defaultProgram()) {
    if (!fs.existsSync(program))
      throw new Error(`the kernel has not been built (${program} is missing): run npm run build`);
    this.#child = fork(program, {
      cwd,
      serialization: 'advanced',
      execArgv: ['--disable-warning=ExperimentalWarning'],
      stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
    });
    this.#child.on('message', (message: FromCells) => {
      if (message.type === 'event') onEvent(message.run, message.event);
      else if (message.type === 'done') this.#settle?.(message.outcome);
    });
    this.#child.on('exit', (code, signal) =>
      this.#settle?.(
        new Error(`the process that ran the cell ended (${signal ?? `code ${code}`})`),
      ),
    );
  }

  /** Runs a cell; rejects if the process ends or the time is over. */
  run(run: string, label: string, code: string, timeoutMs: number): Promise<Outcome> {
    return new Promise((resolve, reject) => {
      const timer =
        timeoutMs > 0 ? setTimeout(() => this.#timeUp(timeoutMs), timeoutMs) : undefined;
      this.#settle = (outcome) => {
        clearTimeout(timer);
        this.#settle = null;
        if (outcome instanceof Error) reject(outcome);
        else resolve(outcome);
      };
      this.#child.send({ type: 'run', run, label, code } satisfies ToCells);
    });
  }

  end(): void {
    this.#settle = null;
    this.#child.kill('SIGKILL');
  }

  #timeUp(timeoutMs: number): void {
    this.#settle?.(new Error(`the cell did not end within ${timeoutMs / 1000} s`));
  }
}

function defaultProgram(): string {
  return path.join(packageRoot(), 'dist', 'kernel', 'runner.cjs');
}
