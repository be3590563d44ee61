import { Instant } from '../../core/units/index.js';
import { View } from '../live/view.js';
import { MIME, type MimeBundle } from '../mime.js';
import { benchData, type BenchData, type BenchOptions } from './bench-data.js';

export function benchBundle(data: BenchData): MimeBundle {
  return {
    [MIME.bench]: data,
    'text/plain': `Practice bench: ${data.body} from ${Instant.fromEpochMs(data.fromMs)}, to be used in JupyterLab or a page`,
  };
}

/**
 * A sextant to take sights with on a computed sky: Sun, Moon, a planet or a star over the sea, in haze
 * or twilight, or over an artificial horizon. Readings go into a sight log,
 * whose CSV code reads: `SightLog.fromCsv((await view.state()).csv)`.
 * `view.set({ readingDeg, tiltDeg })` moves it. @throws EntryError for a time, height or distance that cannot be read
 */
export const practiceBench = (options: BenchOptions): View => {
  benchData(options);
  return new View((viewId) => benchBundle(benchData(options, viewId)));
};
