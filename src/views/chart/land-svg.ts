import { LAND, SHORE } from '../svg/inks.js';
import { pathData, svg, type SvgNode } from '../svg/svg-node.js';
import {
  nearestTurn,
  project,
  type Box,
  type ChartWindow,
  type Place,
  type Point,
} from './window.js';

/** Coastlines as closed rings of places; islands of the sea are rings too. */
export type Coast = readonly (readonly Place[])[];

/** The land of a window. */
export function landSvg(coast: Coast, w: ChartWindow): SvgNode {
  const turn = 360 * 60 * w.perMinute;
  const rings = coast.flatMap((ring) => {
    const points = coastPoints(ring, w);
    return [0, turn, -turn].map((shift) => points.map(([x, y]) => [x + shift, y] as const));
  });
  const visible = rings.filter((points) => touches(points, w.frame));
  return svg('path', {
    d: visible.map((points) => pathData(points, true)).join(''),
    fill: LAND,
    stroke: SHORE,
    'stroke-width': 0.9,
    'fill-rule': 'evenodd',
  });
}

/** A coastline made continuous across 180°; one that goes round a pole is closed beyond the edge of the chart. */
function coastPoints(ring: readonly Place[], w: ChartWindow): Point[] {
  const middle = w.frame.left + w.frame.width / 2;
  const x = (lonDeg: number) => middle + (lonDeg - w.lonDeg) * 60 * w.perMinute;
  let lon = ring[0]?.lonDeg ?? 0;
  const first = lon;
  const points = ring.map((place): Point => {
    lon = nearestTurn(place.lonDeg, lon);
    return [x(lon), project(w, place)[1]];
  });
  if (Math.abs(lon - first) < 180) return points;
  const south = (ring[0]?.latDeg ?? 0) < 0;
  const [, edge] = project(w, { latDeg: south ? -90 : 90, lonDeg: 0 });
  return [...points, [x(lon), edge], [x(first), edge]];
}

function touches(points: readonly Point[], { left, top, width, height }: Box): boolean {
  let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    x0 = Math.min(x0, x);
    x1 = Math.max(x1, x);
    y0 = Math.min(y0, y);
    y1 = Math.max(y1, y);
  }
  return x1 > left && x0 < left + width && y1 > top && y0 < top + height;
}
