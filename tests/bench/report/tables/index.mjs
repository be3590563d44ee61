/** The tables of the report, by the name of their region: from which parts each is made, and how it is written. */
import { accuracy } from './accuracy.mjs';
import { calibration } from './calibration.mjs';
import { kernel } from './kernel.mjs';
import { measures, sky } from './measures.mjs';
import { slips } from './slips.mjs';

/** @type {Record<string, { parts: string[], write: (kept: any) => string }>} */
export const TABLES = {
  accuracy: { parts: ['accuracy'], write: accuracy },
  calibration: { parts: ['calibration'], write: calibration },
  slips: { parts: ['slips'], write: slips },
  kernel: { parts: ['kernel'], write: kernel },
  sky: { parts: ['sky'], write: sky },
  reduction: { parts: ['reduction'], write: measures('reduction', 'one core') },
  log: { parts: ['log'], write: measures('log', 'a process of its own') },
  views: { parts: ['views'], write: measures('views', 'Chromium without a graphics card') },
  publish: { parts: ['publish'], write: measures('publish', 'the same machine and minute') },
  lite: {
    parts: ['lite'],
    write: measures('lite', 'Chromium, both kernels in one site, in turns'),
  },
  sizes: { parts: ['sizes'], write: measures('sizes', 'gzip, level 9') },
};
