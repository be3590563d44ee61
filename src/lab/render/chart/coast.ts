import type { Coast } from '../../../views/chart/chart-svg.js';
import type { ChartWindow } from '../../../views/chart/window.js';

/** Widths of the window, degrees, from which a coastline is drawn, and from which the coarse one will do. */
const LEAST_DEG = 1.5;
const COARSE_DEG = 50;

const cache = new Map<'coarse' | 'fine', Promise<Coast>>();

function load(which: 'coarse' | 'fine'): Promise<Coast> {
  let loading = cache.get(which);
  if (!loading) {
    loading =
      which === 'coarse'
        ? import('./coast-coarse.js').then((m) => m.coarseCoast())
        : import('./coast-fine.js').then((m) => m.fineCoast());
    cache.set(which, loading);
  }
  return loading;
}

/** The coastline a window wants: none close in, where its rough points would mislead. Loaded when first wanted. */
export function coastFor(w: ChartWindow): Promise<Coast> | undefined {
  const widthDeg = w.frame.width / w.perMinute / 60;
  if (widthDeg < LEAST_DEG) return undefined;
  return load(widthDeg > COARSE_DEG ? 'coarse' : 'fine');
}
