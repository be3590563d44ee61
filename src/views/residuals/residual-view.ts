import { Fix } from '../../core/fix/index.js';
import type { SightLog } from '../../log/index.js';
import { View } from '../live/view.js';
import { MIME, type MimeBundle } from '../mime.js';
import { fixResidualsData, logResidualsData } from './residual-data.js';
import { residualFigure } from './residual-figure.js';
import { residualsHtml, residualsText } from './residual-text.js';

export function residualsBundle(of: Fix | SightLog, viewId?: string): MimeBundle {
  const data = of instanceof Fix ? fixResidualsData(of, viewId) : logResidualsData(of, viewId);
  return {
    [MIME.residuals]: data,
    [MIME.plotly]: residualFigure(data.points, { axis: 'time', isStandardised: false }),
    'text/html': residualsHtml(data),
    'text/plain': residualsText(data),
  };
}

/**
 * Residuals of a fix or of a sight log, by time, altitude, azimuth or observer, and the run of a body's sights against
 * the computed slope. A reader may reject a sight with a reason: `(await view.state()).rejected` tells which, as
 * `[{ key, reason }]`; the fix is worked out again without it.
 */
export const residuals = (of: Fix | SightLog): View =>
  new View((viewId) => residualsBundle(of, viewId));
