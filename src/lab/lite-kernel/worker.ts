/** The worker that runs the cells of a notebook in the page. */
import * as astronomyEngine from 'astronomy-engine';
import * as arquero from 'arquero';
import * as library from '../../browser.js';
import { startWorker, type WorkerScope } from './start-worker.js';

declare const EPHEMERIS_FILE: string;

const base = new URL('.', (globalThis as unknown as { location: { href: string } }).location.href);

/** The ephemeris is fetched when the first place is asked for: a worker may wait for it. */
class FetchedEphemeris {
  readonly name = EPHEMERIS_FILE.replace(/\.bin$/, '');
  #source: ReturnType<typeof library.ephemerisFromBytes> | null = null;

  read(offset: number, length: number): Uint8Array {
    this.#source ??= library.ephemerisFromBytes(fetchNow(EPHEMERIS_FILE), this.name);
    return this.#source.read(offset, length);
  }
}

function fetchNow(file: string): Uint8Array {
  const request = new XMLHttpRequest();
  request.open('GET', new URL(file, base), false);
  request.responseType = 'arraybuffer';
  request.send();
  if (request.status !== 200)
    throw new Error(`the page's file ${file} could not be loaded (status ${request.status})`);
  return new Uint8Array(request.response as ArrayBuffer);
}

library.provideEphemeris(new FetchedEphemeris());
startWorker(globalThis as unknown as WorkerScope, {
  'cocked-hat': () => library,
  'astronomy-engine': () => astronomyEngine,
  arquero: () => arquero,
});
