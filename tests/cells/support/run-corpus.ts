/** Runs a list of cells in one session of a host and gathers their outputs. */
import path from 'node:path';
import { MessageChannel, Worker } from 'node:worker_threads';
import { build } from 'esbuild';
import ts from 'typescript';
import { LanguageServiceEngine, serveTypeEngine } from '../../../src/cells/index.js';
import { ROOT } from '../../../src/cli/bootstrap/paths.mjs';
import { declarationFiles } from '../../../src/lab/lite-kernel/declaration-files.mjs';
import type { FromWorker } from '../../../src/lab/lite-kernel/messages.js';
import { WORKER_GLOBALS } from '../../../src/lab/lite-kernel/worker-globals.js';
import { runNotebook, type Output } from '../../../src/kernel/index.js';
import { builtKernel } from '../../kernel/support/built-kernel.js';

/** What a cell put out, in a form in which hosts can be compared. */
export interface CellOutput {
  readonly stdout: string;
  readonly stderr: string;
  readonly result: string | null;
  readonly error: {
    readonly ename: string;
    readonly evalue: string;
    readonly trace: string;
  } | null;
}

const bare = (text: string): string => text.replace(/\x1b\[\d+m/g, '');

export async function runInNode(codes: readonly string[]): Promise<CellOutput[]> {
  const { dist } = await builtKernel();
  const cells = codes.map((source) => ({
    cell_type: 'code',
    metadata: {},
    source: source.trim() ? source : '// empty',
  }));
  const notebook = { nbformat: 4, nbformat_minor: 5, metadata: {}, cells };
  const program = path.join(dist, 'kernel', 'runner.cjs');
  const run = await runNotebook(notebook, { allowErrors: true, program, cwd: ROOT });
  return run.notebook.cells.map((cell) => fromOutputs(cell.outputs ?? []));
}

function fromOutputs(outputs: readonly Output[]): CellOutput {
  const stream = (name: string): string =>
    outputs
      .map((o) => (o.output_type === 'stream' && o.name === name ? [o.text].flat().join('') : ''))
      .join('');
  const result = outputs.find((o) => o.output_type === 'execute_result');
  const error = outputs.find((o) => o.output_type === 'error');
  return {
    stdout: stream('stdout'),
    stderr: bare(stream('stderr')),
    result: result ? [result.data['text/plain'] as string | string[]].flat().join('') : null,
    error: error
      ? { ename: error.ename, evalue: error.evalue, trace: bare(error.traceback.join('\n')) }
      : null,
  };
}

/** A worker thread with the page's host in it, and TypeScript's language service as its type engine. */
export async function runInWorker(codes: readonly string[]): Promise<CellOutput[]> {
  const outfile = path.join(ROOT, '.cache', 'test-kernel', String(process.pid), 'worker.mjs');
  await build({
    entryPoints: [path.join(ROOT, 'tests/cells/support/worker-entry.ts')],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    banner: {
      js: "import { createRequire as mk } from 'node:module'; const require = mk(import.meta.url);",
    },
    logLevel: 'error',
  });
  const files = declarationFiles(ROOT, path.join(ROOT, 'dist'));
  const engine = new LanguageServiceEngine(ts, files, WORKER_GLOBALS);
  const worker = new Worker(outfile);
  const { port1, port2 } = new MessageChannel();
  const listen = (listener: (m: unknown) => void): void => void port1.on('message', listener);
  serveTypeEngine({ post: (m) => port1.postMessage(m), listen }, engine);
  worker.postMessage({ type: 'types', port: port2 }, [port2]);
  try {
    const outputs: CellOutput[] = [];
    for (const [index, code] of codes.entries())
      outputs.push(await runCell(worker, index + 1, code));
    return outputs;
  } finally {
    port1.close();
    await worker.terminate();
  }
}

function runCell(worker: Worker, number: number, code: string): Promise<CellOutput> {
  return new Promise((resolve) => {
    const text = { stdout: '', stderr: '' };
    const listener = (message: FromWorker): void => {
      if (message.type === 'event' && message.event.type === 'stream')
        text[message.event.name] += message.event.text;
      if (message.type !== 'done') return;
      worker.off('message', listener);
      const { outcome } = message;
      const failed = outcome.status === 'error' ? outcome.error : null;
      const data = outcome.status === 'ok' ? outcome.result?.data : undefined;
      resolve({
        stdout: text.stdout,
        stderr: bare(text.stderr),
        result: (data?.['text/plain'] as string | undefined) ?? null,
        error: failed && {
          ename: failed.ename,
          evalue: failed.evalue,
          trace: bare(failed.traceback.join('\n')),
        },
      });
    };
    worker.on('message', listener);
    worker.postMessage({ type: 'run', run: String(number), label: `In[${number}]`, code });
  });
}
