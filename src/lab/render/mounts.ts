import { MIME } from '../../views/mime.js';
import { mountWorking } from './working/working.js';
import { mountChart } from './chart/chart.js';
import { mountResiduals } from './residuals/residuals.js';
import { mountUncertainty } from './uncertainty/uncertainty.js';
import { mountPassage } from './passage/passage.js';
import { mountLog } from './log/log-table.js';
import { mountInstrument } from './instrument/instrument.js';
import { mountEdit } from './edit/edit.js';
import { mountBench } from './bench/bench.js';
import { mountSky } from './sky/sky.js';
import { mountPlotly } from './plotly-figure.js';
import { mountWith } from './mount.js';
import type { Mount } from './view.js';

/** All views in one script, for a page that must work from one file. */
const MOUNTS: Readonly<Record<(typeof MIME)[keyof typeof MIME], Mount>> = {
  [MIME.working]: mountWorking,
  [MIME.chart]: mountChart,
  [MIME.residuals]: mountResiduals,
  [MIME.uncertainty]: mountUncertainty,
  [MIME.passage]: mountPassage,
  [MIME.log]: mountLog,
  [MIME.instrument]: mountInstrument,
  [MIME.edit]: mountEdit,
  [MIME.bench]: mountBench,
  [MIME.sky]: mountSky,
  [MIME.plotly]: mountPlotly,
};

export const mountView = mountWith(
  (mime) => (MOUNTS as Readonly<Partial<Record<string, Mount>>>)[mime],
);
