/** The corpus of cells in the page's own worker, in Chromium, with types by TypeScript 5.9 there. */
import fs from 'node:fs';
import http from 'node:http';
import os from 'node:os';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildLiteKernel } from '../../src/lab/lite-kernel/build.mjs';
import { CORPUS } from '../cells/corpus/index.js';
import { openBrowser } from '../support/browser.js';

type Outcome = {
  result?: { data: Record<string, string> } | null;
  error?: { ename: string; evalue: string; traceback: string[] };
};

interface PageOutput {
  readonly stdout: string;
  readonly result: string | null;
  readonly ename: string | null;
  readonly evalue: string;
  readonly trace: string;
}

let server: http.Server;
let browser: Browser;
let origin: string;
let files: string[];

beforeAll(async () => {
  const outdir = fs.mkdtempSync(path.join(os.tmpdir(), 'lite-'));
  await buildLiteKernel({ outdir });
  const folder = path.join(outdir, 'static');
  files = fs.readdirSync(folder);
  server = http.createServer((request, answer) => {
    const name = path.basename(request.url ?? '');
    const file = path.join(folder, name);
    const type = name.endsWith('.js') ? 'text/javascript' : 'text/html';
    answer.writeHead(200, { 'content-type': type });
    answer.end(
      files.includes(name) ? fs.readFileSync(file) : '<!doctype html><title>cells</title>',
    );
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  origin = `http://127.0.0.1:${(server.address() as { port: number }).port}/`;
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** Runs cells one after the other in one worker of the page. */
async function runInPage(codes: readonly string[], withTypes: boolean): Promise<PageOutput[]> {
  const page = await browser.newPage();
  await page.goto(origin);
  const named = (start: string): string => files.find((f) => f.startsWith(`${start}-`)) ?? '';
  const given = { codes, withTypes, worker: named('worker'), types: named('types') };
  const outputs = await page.evaluate(async ({ codes, withTypes, worker: file, types }) => {
    const worker = new Worker(file);
    await new Promise((resolve) => (worker.onmessage = resolve));
    if (withTypes) {
      const channel = new MessageChannel();
      const ask = new MessageChannel();
      const typesWorker = new Worker(types);
      typesWorker.postMessage({ ports: [channel.port1, ask.port1] }, [channel.port1, ask.port1]);
      const ready = new Promise((resolve) => (ask.port2.onmessage = resolve));
      ask.port2.postMessage({ id: 0, method: 'inspect', args: ['1', 0] });
      await ready;
      worker.postMessage({ type: 'types', port: channel.port2 }, [channel.port2]);
    }
    const outputs = [];
    for (const [i, code] of codes.entries()) {
      let stdout = '';
      const outcome = await new Promise<Outcome>((resolve) => {
        worker.onmessage = ({ data }) => {
          if (data.type === 'event' && data.event.name === 'stdout') stdout += data.event.text;
          if (data.type === 'done') resolve(data.outcome);
        };
        worker.postMessage({ type: 'run', run: String(i + 1), label: `In[${i + 1}]`, code });
      });
      outputs.push({
        stdout,
        result: outcome.result?.data['text/plain'] ?? null,
        ename: outcome.error?.ename ?? null,
        evalue: outcome.error?.evalue ?? '',
        trace: outcome.error?.traceback.join('\n') ?? '',
      });
    }
    worker.terminate();
    return outputs;
  }, given);
  await page.close();
  return outputs as PageOutput[];
}

test('every cell of the corpus does in Chromium what it does in Node', async () => {
  const outputs = await runInPage(
    CORPUS.map((cell) => cell.code),
    true,
  );
  expect(outputs).toHaveLength(CORPUS.length);
  const wrong = CORPUS.flatMap((cell, i) => {
    const output = outputs[i];
    const right =
      output !== undefined &&
      output.ename === (cell.error ?? null) &&
      output.evalue.includes(cell.says ?? '') &&
      output.trace.replace(/\u001b\[\d+m/g, '').includes(cell.at ? `]${cell.at}` : '') &&
      (cell.result === undefined || output.result === cell.result) &&
      (cell.out === undefined || output.stdout === cell.out);
    return right ? [] : [{ cell, output }];
  });
  expect(wrong).toEqual([]);
});

test('the library, its ephemeris and the table library can be imported in the page', async () => {
  const [first, second] = await runInPage(
    [
      "import { angle, apparentPlace, Instant } from 'cocked-hat';\nimport * as aq from 'arquero';\n[angle('12°30′').degrees, aq.table({ a: [1, 2] }).numRows()]",
      "apparentPlace('Sun', Instant.utc('2027-05-11T09:42:17Z')).declination.degrees > 17",
    ],
    false,
  );
  expect([first?.result, first?.evalue]).toEqual(['[ 12.5, 2 ]', '']);
  expect([second?.result, second?.evalue]).toEqual(['true', '']);
});
