import { MIME } from '../../views/mime.js';
import { mountChart } from './chart/chart.js';
import { h } from './dom.js';
import { mountEdit } from './edit/edit.js';
import { mountBench } from './bench/bench.js';
import { mountInstrument } from './instrument/instrument.js';
import { mountPlotly } from './plotly-figure.js';
import { mountLog } from './log/log-table.js';
import { mountPassage } from './passage/passage.js';
import { mountResiduals } from './residuals/residuals.js';
import { mountSky } from './sky/sky.js';
import { mountUncertainty } from './uncertainty/uncertainty.js';
import { ensureStyle } from './style.js';
import type { Mount, Services, ViewHandle } from './view.js';
import { stillView } from './view.js';
import { mountWorking } from './working/working.js';

const MOUNTS: Readonly<Partial<Record<string, Mount>>> = {
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

const SHOWN_CHARS = 2000;

function source(data: unknown): string {
  try {
    const text = JSON.stringify(data, null, 1) ?? String(data);
    return text.length > SHOWN_CHARS ? `${text.slice(0, SHOWN_CHARS)}…` : text;
  } catch {
    return String(data);
  }
}

/** What is shown when the data of a view cannot be read: why, and the data as text. */
function showUnreadable(host: HTMLElement, error: unknown, data: unknown): ViewHandle {
  const message = error instanceof Error ? error.message : String(error);
  host.replaceChildren(
    h(
      'div',
      { class: 'ch', role: 'alert' },
      h('p', { class: 'ch-flag' }, message),
      h('pre', { class: 'ch-error' }, source(data)),
    ),
  );
  return stillView(() => host.replaceChildren());
}

/**
 * Shows view data of that MIME type in `host`. Data may come from anyone: they are checked first, shown as text
 * only, and what cannot be read is named.
 */
export async function mountView(
  host: HTMLElement,
  mime: string,
  data: unknown,
  services: Services,
): Promise<ViewHandle> {
  ensureStyle(host.ownerDocument);
  const mount = MOUNTS[mime];
  try {
    if (!mount) throw new Error(`no view is known for ${mime}`);
    return await mount(host, data, services);
  } catch (error) {
    return showUnreadable(host, error, data);
  }
}
