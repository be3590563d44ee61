import { latitudeOf, meridionalParts } from './mercator.js';

/** A rectangle in pixels. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Which piece of the Mercator chart fills a frame, and how large. */
export interface ChartWindow {
  readonly frame: Box;
  readonly lonDeg: number;
  /** Meridional parts of the middle of the frame. */
  readonly parts: number;
  /** Pixels (or millimetres, on paper) for a minute of longitude. */
  readonly perMinute: number;
}

export type Point = readonly [x: number, y: number];

/** A place, degrees, north and east positive. */
export interface Place {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/** A longitude as the one of its turns that lies nearest `nearDeg`. */
export const nearestTurn = (lonDeg: number, nearDeg: number): number =>
  lonDeg - 360 * Math.round((lonDeg - nearDeg) / 360);

const middle = (box: Box): Point => [box.left + box.width / 2, box.top + box.height / 2];

/** Where a place falls; its longitude is taken by the way round that is nearer to the middle. */
export function project(w: ChartWindow, { latDeg, lonDeg }: Place): Point {
  const [x, y] = middle(w.frame);
  return [
    x + (nearestTurn(lonDeg, w.lonDeg) - w.lonDeg) * 60 * w.perMinute,
    y - (meridionalParts(latDeg) - w.parts) * w.perMinute,
  ];
}

/** The place at a point of the frame. */
export function placeAt(w: ChartWindow, [px, py]: Point): Place {
  const [x, y] = middle(w.frame);
  const lonDeg = w.lonDeg + (px - x) / (60 * w.perMinute);
  return {
    latDeg: latitudeOf(w.parts - (py - y) / w.perMinute),
    lonDeg: nearestTurn(lonDeg, 0),
  };
}

/** Minutes of longitude from side to side and latitudes of the lower and upper edge. */
export function extent(w: ChartWindow) {
  const halfParts = w.frame.height / 2 / w.perMinute;
  return {
    southDeg: latitudeOf(w.parts - halfParts),
    northDeg: latitudeOf(w.parts + halfParts),
    westDeg: w.lonDeg - w.frame.width / 2 / w.perMinute / 60,
    eastDeg: w.lonDeg + w.frame.width / 2 / w.perMinute / 60,
  };
}

const LARGEST_PER_MINUTE = 4000;

/** The window that shows all these places with a margin; never closer than half a mile from side to side. */
export function windowAround(frame: Box, places: readonly Place[], margin = 1.25): ChartWindow {
  const first = places[0] ?? { latDeg: 0, lonDeg: 0 };
  const lons = places.map((p) => nearestTurn(p.lonDeg, first.lonDeg));
  const parts = places.map((p) => meridionalParts(p.latDeg));
  const span = (values: number[]) => [Math.min(...values), Math.max(...values)] as const;
  const [west, east] = lons.length ? span(lons) : [0, 0];
  const [south, north] = parts.length ? span(parts) : [0, 0];
  const width = Math.max((east - west) * 60 * margin, 0.5);
  const height = Math.max((north - south) * margin, 0.5);
  return {
    frame,
    lonDeg: nearestTurn((west + east) / 2, 0),
    parts: (south + north) / 2,
    perMinute: clampScale(frame, Math.min(frame.width / width, frame.height / height)),
  };
}

/** Not closer than metres matter, not farther than once round the world. */
export function clampScale(frame: Box, perMinute: number): number {
  return Math.max(frame.width / (360 * 60), Math.min(LARGEST_PER_MINUTE, perMinute));
}

/** The window enlarged by `factor` about a fixed point of the frame. */
export function zoomed(
  w: ChartWindow,
  factor: number,
  about: Point = middle(w.frame),
): ChartWindow {
  const perMinute = clampScale(w.frame, w.perMinute * factor);
  const [x, y] = middle(w.frame);
  const shift = 1 / w.perMinute - 1 / perMinute;
  return {
    ...w,
    perMinute,
    lonDeg: nearestTurn(w.lonDeg + ((about[0] - x) * shift) / 60, 0),
    parts: w.parts - (about[1] - y) * shift,
  };
}

/** The window moved so that the chart shifts by these pixels. */
export function panned(w: ChartWindow, dx: number, dy: number): ChartWindow {
  const limit = meridionalParts(84);
  return {
    ...w,
    lonDeg: nearestTurn(w.lonDeg - dx / (60 * w.perMinute), 0),
    parts: Math.max(-limit, Math.min(limit, w.parts + dy / w.perMinute)),
  };
}
