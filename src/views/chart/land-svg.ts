import { LAND, SHORE } from '../svg/inks.js';
import { pathData, svg, type SvgNode } from '../svg/svg-node.js';
import { meridionalParts } from './mercator.js';
import { nearestTurn, type Box, type ChartWindow, type Place, type Point } from './window.js';

/** Coastlines as closed rings of places; islands of the sea are rings too. */
export type Coast = readonly (readonly Place[])[];

/** A ring in minutes of longitude, made continuous across 180°, and meridional parts; and where it lies. */
interface Ring {
  readonly points: readonly Point[];
  readonly west: number;
  readonly east: number;
  readonly south: number;
  readonly north: number;
}

const projected = new WeakMap<Coast, readonly Ring[]>();

/** The rings of a coast on the Mercator chart, worked out once. */
function ringsOf(coast: Coast): readonly Ring[] {
  let rings = projected.get(coast);
  if (!rings) {
    rings = coast.map(ringOf);
    projected.set(coast, rings);
  }
  return rings;
}

/** A ring that goes round a pole is closed beyond the edge of any chart. */
function ringOf(places: readonly Place[]): Ring {
  const first = places[0]?.lonDeg ?? 0;
  let lon = first;
  const points = places.map((place): Point => {
    lon = nearestTurn(place.lonDeg, lon);
    return [lon * 60, meridionalParts(place.latDeg)];
  });
  if (Math.abs(lon - first) >= 180) {
    const pole = meridionalParts((places[0]?.latDeg ?? 0) < 0 ? -90 : 90);
    points.push([lon * 60, pole], [first * 60, pole]);
  }
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of points) {
    west = Math.min(west, x);
    east = Math.max(east, x);
    south = Math.min(south, y);
    north = Math.max(north, y);
  }
  return { points, west, east, south, north };
}

const TURN = 360 * 60;

/** The land of a window. */
export function landSvg(coast: Coast, w: ChartWindow): SvgNode {
  const { left, top, width, height }: Box = w.frame;
  const [x0, y0] = [left + width / 2, top + height / 2];
  const half = width / 2 / w.perMinute;
  const [west, east] = [w.lonDeg * 60 - half, w.lonDeg * 60 + half];
  const [south, north] = [w.parts - height / 2 / w.perMinute, w.parts + height / 2 / w.perMinute];
  const d = ringsOf(coast).flatMap((ring) =>
    [0, TURN, -TURN]
      .filter(
        (shift) =>
          ring.east + shift > west &&
          ring.west + shift < east &&
          ring.north > south &&
          ring.south < north,
      )
      .map((shift) => {
        const points = ring.points.map(([lon, parts]): Point => [
          x0 + (lon + shift - w.lonDeg * 60) * w.perMinute,
          y0 - (parts - w.parts) * w.perMinute,
        ]);
        return pathData(thinned(points), true);
      }),
  );
  return svg('path', {
    d: d.join(''),
    fill: LAND,
    stroke: SHORE,
    'stroke-width': 0.9,
    'fill-rule': 'evenodd',
  });
}

/** Points closer together than can be told apart are left out. */
function thinned(points: readonly Point[]): Point[] {
  let [lx, ly] = [Infinity, Infinity];
  return points.filter(([x, y]) => {
    if (Math.abs(x - lx) < 0.7 && Math.abs(y - ly) < 0.7) return false;
    [lx, ly] = [x, y];
    return true;
  });
}
