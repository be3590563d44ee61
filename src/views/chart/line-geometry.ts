import { pointAt } from '../../core/line/circle.js';
import { altitudeKernel } from '../../core/line/altitude-kernel.js';
import { rhumbDestinationKernel } from '../../core/line/rhumb-kernel.js';
import type { ChartLine, Run } from './scene.js';
import { extent, nearestTurn, placeAt, project, type ChartWindow } from './window.js';
import type { Place, Point } from './window.js';

/** A place carried along the run; a place that would pass a pole is left out. */
export function carried(place: Place, run: readonly Run[]): Place | null {
  let at = place;
  for (const { courseDeg, distanceM } of run) {
    try {
      at = rhumbDestinationKernel(at.latDeg, at.lonDeg, courseDeg, distanceM);
    } catch {
      return null;
    }
    if (!Number.isFinite(at.latDeg) || !Number.isFinite(at.lonDeg)) return null;
  }
  return at;
}

/** Half the diagonal of the frame in degrees of great circle, roughly; at least as far as the frame reaches. */
function reachDeg(w: ChartWindow): number {
  const { southDeg, northDeg, westDeg, eastDeg } = extent(w);
  return Math.hypot(northDeg - southDeg, eastDeg - westDeg);
}

/** Bearings from the geographical position under which the circle crosses the window. */
function bearings(line: ChartLine, w: ChartWindow, radiusDeg: number): number[] {
  const centre = placeAt(w, [w.frame.left + w.frame.width / 2, w.frame.top + w.frame.height / 2]);
  const gp = line.geographicalPosition;
  const { azDeg } = altitudeKernel(gp.latDeg, gp.lonDeg, -centre.lonDeg, centre.latDeg);
  const runDeg = line.run.reduce((sum, r) => sum + r.distanceM / 111_000, 0);
  const radius = Math.max(Math.sin((radiusDeg * Math.PI) / 180), 1e-6);
  const half = Math.min(180, (reachDeg(w) + runDeg) / radius);
  const count = half >= 40 ? 181 : half >= 3 ? 61 : half >= 0.5 ? 21 : 11;
  return Array.from({ length: count }, (_, k) => azDeg + half * ((2 * k) / (count - 1) - 1));
}

/** Cuts a row of points where it leaps round the back of the world. */
function pieces(points: readonly (Point | null)[], leapPx: number): Point[][] {
  const out: Point[][] = [];
  let current: Point[] = [];
  for (const point of points) {
    const last = current.at(-1);
    if (!point || (last && Math.abs(point[0] - last[0]) > leapPx)) {
      if (current.length > 1) out.push(current);
      current = [];
    }
    if (point) current.push(point);
  }
  if (current.length > 1) out.push(current);
  return out;
}

/**
 * The circle as drawn in a window: pieces of polyline in pixels, west to east as seen from the body.
 * @param offsetArcmin altitude added to the observed: + is toward the body
 */
export function linePieces(
  line: ChartLine,
  w: ChartWindow,
  { offsetArcmin = 0, isCarried = true } = {},
): Point[][] {
  const radiusDeg = Math.max(0, line.radiusDeg - offsetArcmin / 60);
  const gp = line.geographicalPosition;
  const points = bearings(line, w, radiusDeg).map((bearing) => {
    const place = pointAt(gp.latDeg, gp.lonDeg, bearing, radiusDeg);
    const moved = isCarried ? carried(place, line.run) : place;
    return moved && Math.abs(moved.latDeg) < 89.9 ? project(w, moved) : null;
  });
  return pieces(points, 180 * 60 * w.perMinute);
}

/** A closed ring in pixels, unrolled about its first corner; it must be narrower than half the world. */
export function ringPoints(ring: readonly Place[], w: ChartWindow): Point[] {
  const first = ring[0];
  if (!first) return [];
  const [x0] = project(w, first);
  const turn = 360 * 60 * w.perMinute;
  return ring.map((place) => {
    const [x, y] = project(w, place);
    return [(nearestTurn((x / turn) * 360, (x0 / turn) * 360) / 360) * turn, y] as const;
  });
}
