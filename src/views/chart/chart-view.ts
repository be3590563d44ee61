import type { Fix } from '../../core/fix/index.js';
import { View } from '../live/view.js';
import { MIME, type MimeBundle } from '../mime.js';
import { chartFigure } from './chart-figure.js';
import { chartHtml } from './chart-html.js';
import { fixInputs, type ChartData } from './chart-inputs.js';
import { ChartModel } from './chart-model.js';
import { fixLabel, fixText } from './chart-text.js';

/** What a notebook shows for a fix: our interactive chart, a plotly figure, a drawing with its table, text. */
export function chartBundle(fix: Fix, viewId?: string): MimeBundle {
  const inputs = fixInputs(fix);
  const { scene } = ChartModel.from(inputs).with({});
  const data: ChartData = {
    format: 1,
    title: fixLabel(fix),
    ...inputs,
    ...(viewId ? { viewId } : {}),
  };
  return {
    [MIME.chart]: data,
    [MIME.plotly]: chartFigure(scene),
    'text/html': chartHtml(fix, scene),
    'text/plain': fixText(fix),
  };
}

/**
 * The chart of a fix: position lines, region, cocked hat, DR. In JupyterLab the reader can switch sights off, move
 * the DR, change course, speed, sigma and level, and the fix follows; `await view.state()` tells what was changed
 * and the fix that came of it.
 */
export const chart = (fix: Fix): View => new View((viewId) => chartBundle(fix, viewId));
