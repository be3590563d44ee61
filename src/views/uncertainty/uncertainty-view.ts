import type { Fix } from '../../core/fix/index.js';
import { escapeHtml } from '../escape.js';
import { fixSummary } from '../chart/chart-text.js';
import { View } from '../live/view.js';
import { MIME, type MimeBundle } from '../mime.js';
import { svgMarkup } from '../svg/svg-node.js';
import { regionsSvg } from './regions-svg.js';
import { uncertaintyData } from './uncertainty-data.js';
import { UncertaintyModel } from './uncertainty-model.js';
import { causesTable, gainsTable, levelsTable } from './uncertainty-text.js';
import { tableHtml, tableText } from '../plain-table.js';

export function uncertaintyBundle(fix: Fix, viewId?: string): MimeBundle {
  const data = uncertaintyData(fix, viewId);
  const model = UncertaintyModel.from(data.fix, data.candidates);
  const levels = model.levels(fix);
  const tables = [causesTable(model.shares()), levelsTable(levels), gainsTable(model.gains())];
  const head = `<p><b>${escapeHtml(data.title)}</b><br>${escapeHtml(fixSummary(fix))}</p>`;
  const drawing = svgMarkup(regionsSvg(levels, fix.position, { width: 480, height: 380 }));
  return {
    [MIME.uncertainty]: data,
    'text/html': `<div class="cocked-hat-uncertainty">${head}${drawing}${tables.map(tableHtml).join('')}</div>`,
    'text/plain': [data.title, fixSummary(fix), ...tables.map(tableText)].join('\n\n'),
  };
}

/**
 * How well a fix is known: which causes the doubt comes from, the region at several levels, and what one more sight of
 * each body that stands well would do to it. A reader may try a cause larger or smaller: `(await view.state()).scale`.
 */
export const uncertainty = (fix: Fix): View => new View((viewId) => uncertaintyBundle(fix, viewId));
