import { Fix } from '../../core/fix/index.js';
import type { SightLog } from '../../log/index.js';
import { View, type ViewState } from '../live/view.js';
import { MIME, type MimeBundle } from '../mime.js';
import { fixResidualsData, logResidualsData, type ResidualPoint, rowKey } from './residual-data.js';
import {
  laidOutFigure,
  RESIDUAL_AXES,
  type ResidualAxis,
  type ResidualLayout,
} from './residual-figure.js';
import { runBodies, runOf } from './run-figure.js';
import { residualsHtml, residualsText } from './residual-text.js';

/** How a residuals view opens. */
export interface ResidualsOptions {
  /**
   * What the residuals are laid out by at first: `time` unless told; `run` is the run of the body with most sights within half an
   * hour, drawn as altitudes against the computed ones, the greatest marked where the body passes it.
   */
  readonly by?: ResidualAxis | 'run';
}

/** The layout that was asked for. @throws RangeError naming the layouts there are, or when no body has a run */
function layoutOf(points: readonly ResidualPoint[], by: ResidualsOptions['by']): ResidualLayout {
  if (by === undefined || RESIDUAL_AXES.includes(by as ResidualAxis))
    return (by ?? 'time') as ResidualAxis;
  if (by !== 'run')
    throw new RangeError(
      `residuals are laid out by ${[...RESIDUAL_AXES, 'run'].join(', ')}, not by '${String(by)}'`,
    );
  const runs = runBodies(points).map((body) => ({ body, size: runOf(points, body).length }));
  const [longest] = runs.sort((a, b) => b.size - a.size);
  if (!longest)
    throw new RangeError(
      'no body here has a run: it takes three sights of one body within half an hour',
    );
  return `run ${longest.body}`;
}

export function residualsBundle(
  of: Fix | SightLog,
  viewId?: string,
  { by }: ResidualsOptions = {},
): MimeBundle {
  const all = of instanceof Fix ? fixResidualsData(of, viewId) : logResidualsData(of, viewId);
  const layout = layoutOf(all.points, by);
  const data = by === undefined ? all : { ...all, laidOutBy: layout };
  return {
    [MIME.residuals]: data,
    [MIME.plotly]: laidOutFigure(data.points, layout, false),
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
 * Residuals of a fix or of a sight log, by time, altitude, azimuth, body or observer, and the run of a body's sights against
 * the computed slope. A reader may reject a sight with a reason: `(await view.state()).rejected` tells which, as
 * `[{ key, reason }]`; the fix is worked out again without it.
 */
export const residuals = (of: Fix | SightLog, options: ResidualsOptions = {}): View =>
  new View((viewId) => residualsBundle(of, viewId, options));
