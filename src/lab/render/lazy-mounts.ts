import { MIME } from '../../views/mime.js';
import { mountWith } from './mount.js';
import type { Mount } from './view.js';

/** Each view in a chunk of its own, which is loaded when the first of its kind is to be shown. */
const LOADERS: Readonly<Record<(typeof MIME)[keyof typeof MIME], () => Promise<Mount>>> = {
  [MIME.working]: async () => (await import('./working/working.js')).mountWorking,
  [MIME.chart]: async () => (await import('./chart/chart.js')).mountChart,
  [MIME.residuals]: async () => (await import('./residuals/residuals.js')).mountResiduals,
  [MIME.uncertainty]: async () => (await import('./uncertainty/uncertainty.js')).mountUncertainty,
  [MIME.passage]: async () => (await import('./passage/passage.js')).mountPassage,
  [MIME.log]: async () => (await import('./log/log-table.js')).mountLog,
  [MIME.instrument]: async () => (await import('./instrument/instrument.js')).mountInstrument,
  [MIME.edit]: async () => (await import('./edit/edit.js')).mountEdit,
  [MIME.bench]: async () => (await import('./bench/bench.js')).mountBench,
  [MIME.sky]: async () => (await import('./sky/sky.js')).mountSky,
  [MIME.plotly]: async () => (await import('./plotly-figure.js')).mountPlotly,
};

export const mountWhenWanted = mountWith((mime) =>
  (LOADERS as Readonly<Partial<Record<string, () => Promise<Mount>>>>)[mime]?.(),
);
