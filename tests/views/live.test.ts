import { afterEach, expect, test, vi } from 'vitest';
import { observedAltitude, sight, toDisplay, workingView } from '../../src/index.js';
import { View } from '../../src/views/live/index.js';
import { DISPLAY } from '../../src/views/mime.js';
import { VIEW_TARGET } from '../../src/views/live/kernel-channel.js';
import { sampleWorking } from '../support/sample-working.js';

type Answer = (comm: object, opened: { data: unknown }) => void;
const global = globalThis as { kernel?: unknown };

/** A kernel's comms as our kernel offers them to cells. */
function fakeKernel() {
  const targets = new Map<string, Answer>();
  global.kernel = {
    comms: { register: (name: string, answer: Answer) => targets.set(name, answer) },
  };
  return targets;
}
afterEach(() => {
  delete global.kernel;
  vi.useRealTimers();
});

const MADE = 'application/vnd.cocked-hat.made.v1+json';
const of = (n: number) =>
  new View((viewId) => ({ [MADE]: { n, viewId }, 'text/plain': String(n) }));
const bare = () => of(0);

test('a page that shows a view tells its state, then every move; code moves every copy', async () => {
  const targets = fakeKernel();
  const view = bare();
  view[DISPLAY]();
  const sent: unknown[] = [];
  const comm = { send: (data: unknown) => sent.push(data), onMessage: null, onClose: null } as {
    send(data: unknown): void;
    onMessage: ((m: { data: unknown }) => void) | null;
    onClose: (() => void) | null;
  };
  targets.get(VIEW_TARGET)?.(comm, { data: { viewId: view.viewId, state: { eyeHeightM: 2 } } });
  expect(await view.state()).toEqual({ eyeHeightM: 2 });
  comm.onMessage?.({ data: { state: { eyeHeightM: 3 } } });
  expect(await view.state()).toEqual({ eyeHeightM: 3 });
  view.set({ eyeHeightM: 4 });
  expect(sent).toEqual([{ set: { eyeHeightM: 4 } }]);
  comm.onClose?.();
  view.set({ eyeHeightM: 5 });
  expect(sent).toHaveLength(1);
});

test('a channel to no known view, or with nonsense in it, changes nothing', () => {
  const targets = fakeKernel();
  bare()[DISPLAY]();
  const comm = { send: vi.fn(), onMessage: null, onClose: null };
  for (const data of [null, 7, {}, { viewId: 'other' }, { viewId: {} }])
    targets.get(VIEW_TARGET)?.(comm, { data });
  expect(comm.onMessage).toBeNull();
});

test('asking for the state of a view that no page shows ends with what to do', async () => {
  vi.useFakeTimers();
  const asked = bare().state();
  const refused = expect(asked).rejects.toThrow(
    /show it in one cell and ask for its state in a later one/,
  );
  await vi.advanceTimersByTimeAsync(3100);
  await refused;
});

test('a working view carries the id that ties it to its value', () => {
  const forenoon = sight({ body: 'Sun', reading: '39°13.7′', time: '2027-05-11 09:42:17 UTC' });
  const view = workingView(observedAltitude(forenoon));
  expect(JSON.stringify(view[DISPLAY]())).toContain(view.viewId);
});

test('the id of a view is the same in each run, and no other has it', async () => {
  const idsOfRun = async () => {
    vi.resetModules();
    const { View: Fresh } = await import('../../src/views/live/view.js');
    const make = (n: number) =>
      new Fresh((viewId) => ({ [MADE]: { n, viewId }, 'text/plain': String(n) }));
    const views = [make(1), make(2), make(1), make(1)];
    const shown = views.map((view) => (view[DISPLAY]()[MADE] as { viewId: string }).viewId);
    expect(shown).toEqual(views.map((view) => view.viewId));
    expect(views[0]?.[DISPLAY]()[MADE]).toEqual({ n: 1, viewId: shown[0] });
    return shown;
  };
  const first = await idsOfRun();
  expect(new Set(first).size).toBe(4);
  expect(await idsOfRun()).toEqual(first);
});

test('in a plain tslab kernel a value shows as HTML, one without as text', () => {
  const shown: [string, string][] = [];
  const display = { raw: (type: string, data: string) => void shown.push([type, data]) };
  toDisplay(display, sampleWorking());
  toDisplay(display, 'plain');
  expect(shown[0]?.[0]).toBe('text/html');
  expect(shown[0]?.[1]).toContain('<table');
  expect(shown[1]).toEqual(['text/plain', 'plain']);
});
