import { loadFormulas, loadPlotly, type Services } from '../render/index.js';
import type { TranslatorService } from './host.js';

/** What our renderers need from JupyterLab: its translations; the libraries are our own. */
export function makeServices(translation: TranslatorService | null): Services {
  const domain = translation?.load('cocked_hat');
  return {
    t: (text) => domain?.gettext(text) ?? text,
    plotly: loadPlotly,
    formulas: loadFormulas,
  };
}
