import { Fix } from '../../core/fix/index.js';
import type { SightLog } from '../../log/index.js';
import { View, type ViewState } from '../live/view.js';
import { MIME, type MimeBundle } from '../mime.js';
import { fixResidualsData, logResidualsData, rowKey } from './residual-data.js';
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
 * The log with the readings rejected (each with its reason) that a reader rejected in a residuals view of it, and with
 * those used again that were restored there: `withRejections(log, await view.state())`.
 */
export function withRejections(log: SightLog, state: ViewState): SightLog {
  const given = Array.isArray(state['rejected']) ? (state['rejected'] as unknown[]) : [];
  const reasons = new Map(
    given.flatMap((item) => {
      const { key, reason } = (item ?? {}) as { key?: unknown; reason?: unknown };
      return typeof key === 'string' ? [[key, String(reason ?? '')] as const] : [];
    }),
  );
  const restored = log.accept((row) => !row.accepted && !reasons.has(rowKey(row)));
  return [...new Set(reasons.values())].reduce(
    (left, reason) => left.reject((row) => reasons.get(rowKey(row)) === reason, reason),
    restored,
  );
}

/**
 * Residuals of a fix or of a sight log, by time, altitude, azimuth or observer, and the run of a body's sights against
 * the computed slope. A reader may reject a sight with a reason: `(await view.state()).rejected` tells which, as
 * `[{ key, reason }]`; the fix is worked out again without it.
 */
export const residuals = (of: Fix | SightLog): View =>
  new View((viewId) => residualsBundle(of, viewId));
