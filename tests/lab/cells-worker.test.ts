/** The worker that a page starts before its kernel asks for one. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';

class FakeWorker {
  static made: FakeWorker[] = [];
  onmessage: ((event: { data: unknown }) => void) | null = null;
  ended = false;
  constructor(readonly url: URL) {
    FakeWorker.made.push(this);
  }
  terminate(): void {
    this.ended = true;
  }
}

const BASE = 'https://host.example/extensions/cocked-hat-lite/static/main.js';
const NOTEBOOK = 'https://host.example/notebooks/index.html?path=02%20Day.ipynb';

async function freshModule() {
  vi.resetModules();
  return import('../../src/lab/lite-kernel/cells-worker.js');
}

beforeEach(() => {
  FakeWorker.made = [];
  vi.useFakeTimers();
  vi.stubGlobal('Worker', FakeWorker);
  vi.stubGlobal('WORKER_FILE', 'worker.js');
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

test('a page of a notebook starts its worker ahead, and only the first kernel takes it', async () => {
  const { startAhead, cellsWorker } = await freshModule();
  startAhead(BASE, NOTEBOOK);
  expect(FakeWorker.made).toHaveLength(1);
  // It may have read its program before the kernel is made.
  FakeWorker.made[0]?.onmessage?.({ data: { type: 'ready' } });
  const first = cellsWorker(BASE);
  await first.ready;
  expect(first.worker).toBe(FakeWorker.made[0]);
  expect(cellsWorker(BASE).worker).toBe(FakeWorker.made[1]);
  vi.advanceTimersByTime(3_600_000);
  expect(FakeWorker.made.map((worker) => worker.ended)).toEqual([false, false]);
});

test('one that no kernel takes ends by itself, and other pages start none', async () => {
  const { startAhead, cellsWorker } = await freshModule();
  startAhead(BASE, 'https://host.example/tree/index.html');
  expect(FakeWorker.made).toHaveLength(0);
  startAhead(BASE, NOTEBOOK);
  vi.advanceTimersByTime(3_600_000);
  expect(FakeWorker.made.map((worker) => worker.ended)).toEqual([true]);
  expect(cellsWorker(BASE).worker).toBe(FakeWorker.made[1]);
});
