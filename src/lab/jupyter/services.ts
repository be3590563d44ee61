import { loadFormulas, loadGrid, loadPlotly, type Services } from '../render/index.js';
import { codeCellBelow } from './code-cell.js';
import type { NotebookTracker, TranslatorService } from './host.js';

/** What our renderers need from JupyterLab: its translations; the libraries are our own. */
export function makeServices(
  translation: TranslatorService | null,
  tracker: NotebookTracker | null,
): Services {
  const domain = translation?.load('cocked_hat');
  return {
    t: (text) => domain?.gettext(text) ?? text,
    plotly: loadPlotly,
    formulas: loadFormulas,
    grid: loadGrid,
    codeCell: (node) => codeCellBelow(node, tracker),
  };
}
