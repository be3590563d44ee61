import { loadGrid } from '../render/edit/load-grid.js';
import { loadFormulas } from '../render/formulas.js';
import { loadPlotly } from '../render/plotly.js';
import type { Services } from '../render/view.js';
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
