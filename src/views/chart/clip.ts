import type { Box, Point } from './window.js';

/** The part of a segment inside a box (Liang and Barsky, ACM TOG 3(1), 1984), or null. */
function clipSegment([x0, y0]: Point, [x1, y1]: Point, box: Box): [Point, Point] | null {
  const [dx, dy] = [x1 - x0, y1 - y0];
  let [t0, t1] = [0, 1];
  const edges: readonly (readonly [number, number])[] = [
    [-dx, x0 - box.left],
    [dx, box.left + box.width - x0],
    [-dy, y0 - box.top],
    [dy, box.top + box.height - y0],
  ];
  for (const [p, q] of edges) {
    if (p === 0) {
      if (q < 0) return null;
      continue;
    }
    const r = q / p;
    if (p < 0) t0 = Math.max(t0, r);
    else t1 = Math.min(t1, r);
    if (t0 > t1) return null;
  }
  return [
    [x0 + t0 * dx, y0 + t0 * dy],
    [x0 + t1 * dx, y0 + t1 * dy],
  ];
}

/** The visible runs of a polyline inside a box. */
export function clipLine(points: readonly Point[], box: Box): Point[][] {
  const out: Point[][] = [];
  let current: Point[] = [];
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1] as Point, points[i] as Point];
    const part = clipSegment(a, b, box);
    if (!part) {
      if (current.length) out.push(current);
      current = [];
      continue;
    }
    const last = current.at(-1);
    if (!last || last[0] !== part[0][0] || last[1] !== part[0][1]) {
      if (current.length) out.push(current);
      current = [part[0]];
    }
    current.push(part[1]);
  }
  if (current.length) out.push(current);
  return out;
}

export const lengthOf = (points: readonly Point[]): number =>
  points
    .slice(1)
    .reduce(
      (sum, p, i) => sum + Math.hypot(p[0] - (points[i]?.[0] ?? 0), p[1] - (points[i]?.[1] ?? 0)),
      0,
    );

/** The point at a distance along a polyline and its direction there, degrees clockwise from the x axis. */
export function pointAlong(
  points: readonly Point[],
  distance: number,
): { at: Point; angleDeg: number } {
  let left = distance;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1] as Point, points[i] as Point];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (left <= length || i === points.length - 1) {
      const f = length > 0 ? Math.min(1, left / length) : 0;
      return {
        at: [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1])],
        angleDeg: (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI,
      };
    }
    left -= length;
  }
  return { at: points[0] ?? [0, 0], angleDeg: 0 };
}

/** How far a point stands from the nearest point of a polyline. */
export function distanceTo(points: readonly Point[], [x, y]: Point): number {
  const each = points.slice(1).map(([bx, by], i) => {
    const [ax, ay] = points[i] as Point;
    const [dx, dy] = [bx - ax, by - ay];
    const length2 = dx * dx + dy * dy;
    const t = length2 > 0 ? ((x - ax) * dx + (y - ay) * dy) / length2 : 0;
    const f = Math.max(0, Math.min(1, t));
    return Math.hypot(ax + f * dx - x, ay + f * dy - y);
  });
  return Math.min(...each);
}
