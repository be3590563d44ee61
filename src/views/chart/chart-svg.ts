import { svg, pathData, px, type SvgNode } from '../svg/svg-node.js';
import { ACCENT, dash, FAINT, hue, INK, LAND, PAPER, REGION, REGION_EDGE } from '../svg/inks.js';
import { REJECTED, SHORE } from '../svg/inks.js';
import { clipLine } from './clip.js';
import { graticule } from './graticule.js';
import { Room, textWidth } from './labels.js';
import { linePieces, ringPoints } from './line-geometry.js';
import type { ChartChoices, ChartLine, ChartScene } from './scene.js';
import { DEFAULT_CHOICES } from './scene.js';
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

const TEXT_PX = 12.5;
const HALO = {
  stroke: PAPER,
  'stroke-width': 4,
  'stroke-linejoin': 'round',
  'paint-order': 'stroke',
};

/** Room for labels round the frame. */
export function frameFor(width: number, height: number): Box {
  const left = width < 480 ? 72 : 80;
  return { left, top: 10, width: width - left - 12, height: height - 10 - 30 };
}

function shapeOf(line: ChartLine, w: ChartWindow, offsetArcmin: number): Point[][] {
  return linePieces(line, w, { offsetArcmin });
}

/** The strip between one standard deviation toward and one away. */
function band(line: ChartLine, w: ChartWindow): SvgNode | null {
  const [toward] = shapeOf(line, w, line.sigmaArcmin);
  const [away] = shapeOf(line, w, -line.sigmaArcmin);
  if (!toward || !away || line.isOff) return null;
  const ring = [...toward, ...away.reverse()];
  return svg('path', { d: pathData(ring, true), fill: hue(line.style), opacity: 0.13 });
}

function lineNode(line: ChartLine, points: readonly Point[][]): SvgNode {
  const d = points.map((piece) => pathData(piece)).join('');
  return svg('path', {
    d,
    fill: 'none',
    stroke: line.isOff ? REJECTED : hue(line.style),
    'stroke-width': line.isOff ? 1 : 1.7,
    'stroke-dasharray': line.isOff ? '1 5' : dash(line.style),
    'data-line': line.key,
  });
}

function before(line: ChartLine, w: ChartWindow): SvgNode | null {
  if (line.isOff || line.run.every((leg) => Math.abs(leg.distanceM) < 20)) return null;
  const pieces = linePieces(line, w, { isCarried: false });
  return svg('path', {
    d: pieces.map((piece) => pathData(piece)).join(''),
    fill: 'none',
    stroke: hue(line.style),
    'stroke-width': 0.8,
    'stroke-dasharray': '3 5',
    opacity: 0.6,
  });
}

const distance = (a: Point, b: Point) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** A line with a small head at its end. */
function arrow(
  from: Point,
  to: Point,
  attributes: Record<string, string | number>,
): SvgNode | null {
  const length = distance(from, to);
  if (length < 6) return null;
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const side = (turn: number): Point => [
    to[0] - 7 * ux - turn * 3 * uy,
    to[1] - 7 * uy + turn * 3 * ux,
  ];
  const d = `${pathData([from, to])}${pathData([side(1), to, side(-1)])}`;
  return svg('path', { d, fill: 'none', ...attributes });
}

/** From where the line was taken to where the run carried it. */
function runArrow(line: ChartLine, w: ChartWindow): SvgNode | null {
  if (line.isOff || !line.foot) return null;
  const [from, to] = [project(w, line.foot.taken), project(w, line.foot.carried)];
  return arrow(from, to, { stroke: hue(line.style), 'stroke-width': 1, opacity: 0.75 });
}

/** The intercept, plotted from the DR. */
function interceptArrow(line: ChartLine, w: ChartWindow, dr: Point): SvgNode | null {
  if (line.isOff || !line.foot) return null;
  return arrow(dr, project(w, line.foot.carried), {
    stroke: hue(line.style),
    'stroke-width': 1.1,
    'stroke-dasharray': '5 3',
  });
}

/** Body above the line and time below it, along the line; nothing where there is no room. */
function lineLabel(
  line: ChartLine,
  pieces: readonly Point[][],
  w: ChartWindow,
  room: Room,
): SvgNode | null {
  const visible = pieces.flatMap((piece) => clipLine(piece, w.frame));
  const longest = visible.reduce<Point[]>(
    (a, b) => (b.length && a.length === 0 ? b : longer(a, b)),
    [],
  );
  const width = Math.max(textWidth(line.body), textWidth(line.time));
  const label = longest.length > 1 ? room.place(longest, width) : null;
  if (!label) return null;
  const fill = line.isOff ? REJECTED : hue(line.style);
  return svg(
    'g',
    {
      transform: `translate(${px(label.at[0])},${px(label.at[1])}) rotate(${px(label.angleDeg)})`,
      'text-anchor': 'middle',
      ...HALO,
    },
    svg('text', { y: -6, fill }, line.body),
    svg(
      'text',
      { y: 16, fill: FAINT, 'font-size': 11.5 },
      line.isOff ? `${line.time} off` : line.time,
    ),
  );
}

const longer = (a: Point[], b: Point[]): Point[] => {
  const span = (p: Point[]) => {
    const [first, last] = [p[0], p.at(-1)];
    return first && last ? Math.hypot(last[0] - first[0], last[1] - first[1]) : 0;
  };
  return span(b) > span(a) ? b : a;
};

/** Trade symbol of a fix: a circle with a dot. */
function fixSymbol([x, y]: Point): SvgNode {
  return svg(
    'g',
    { transform: `translate(${px(x)},${px(y)})` },
    svg('circle', { r: 7.5, fill: 'none', stroke: ACCENT, 'stroke-width': 2 }),
    svg('circle', { r: 1.9, fill: ACCENT }),
  );
}

/** Trade symbol of a dead-reckoning position: a half circle on its place. */
function drSymbol([x, y]: Point): SvgNode {
  return svg(
    'g',
    { transform: `translate(${px(x)},${px(y)})`, class: 'ch-dr' },
    svg('circle', { r: 18, fill: 'transparent', stroke: 'none' }),
    svg('path', {
      d: 'M-7.5,0A7.5,7.5 0 0 1 7.5,0Z',
      fill: PAPER,
      stroke: INK,
      'stroke-width': 1.8,
    }),
    svg('circle', { r: 1.4, fill: INK }),
  );
}

/** A text beside a symbol, on the first side that has room. */
function besideLabel([x, y]: Point, text: string, room: Room, bold: boolean): SvgNode | null {
  const width = textWidth(text) * (bold ? 1.08 : 1);
  const spots: Point[] = [
    [x + 13, y - 9],
    [x + 13, y + 17],
    [x - 13 - width, y - 9],
    [x - 13 - width, y + 17],
    [x - width / 2, y - 16],
    [x - width / 2, y + 26],
  ];
  const spot = spots.find(([sx, sy]) => room.tryText(sx, sy, text));
  if (!spot) return null;
  return svg(
    'text',
    { x: px(spot[0]), y: px(spot[1]), fill: INK, 'font-weight': bold ? 650 : 400, ...HALO },
    text,
  );
}

function land(coast: Coast, w: ChartWindow): SvgNode {
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

/** Where the bodies stood overhead, once the window is wide enough to hold them. */
function geographicalPositions(scene: ChartScene, w: ChartWindow, room: Room): SvgNode[] {
  if (w.frame.width / w.perMinute < 20 * 60) return [];
  return scene.lines.flatMap((line) => {
    const [x, y] = project(w, line.geographicalPosition);
    const symbol = svg('path', {
      d: 'M-6,0H6M0,-6V6',
      stroke: line.isOff ? REJECTED : hue(line.style),
      'stroke-width': 2,
      transform: `translate(${px(x)},${px(y)})`,
    });
    room.take(x, y, 8);
    const label = besideLabel([x - 3, y], `GP ${line.body}`, room, false);
    return label ? [symbol, label] : [symbol];
  });
}

let serial = 0;

/**
 * The chart as a drawing: Mercator, north up, its border the distance scale.
 * @param coast rings of the coastline, none unless the window is far out
 */
export function chartSvg(
  scene: ChartScene,
  w: ChartWindow,
  size: { readonly width: number; readonly height: number },
  choices: ChartChoices = DEFAULT_CHOICES,
  coast: Coast = [],
): SvgNode {
  const { lines: grid, edge } = graticule(w);
  const room = new Room(w.frame);
  const shapes = scene.lines.map((line) => ({ line, pieces: linePieces(line, w) }));
  const fixAt = scene.fix && project(w, scene.fix.place);
  const drAt = scene.dr && project(w, scene.dr.place);
  if (fixAt) room.take(fixAt[0], fixAt[1], 12);
  if (drAt) room.take(drAt[0], drAt[1], 12);
  const fixLabel = fixAt && besideLabel(fixAt, scene.fix?.label ?? '', room, true);
  const drLabel = drAt && besideLabel(drAt, scene.dr?.label ?? '', room, false);
  const gps = geographicalPositions(scene, w, room);
  const labels = shapes.map(({ line, pieces }) => lineLabel(line, pieces, w, room));
  const clip = `ch-frame-${(serial += 1)}`;
  const { left, top, width, height } = w.frame;
  const region = scene.region;
  const outline = region ? pathData(ringPoints(region.outline, w), region.isBounded) : '';
  return svg(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${px(size.width)} ${px(size.height)}`,
      width: px(size.width),
      height: px(size.height),
      role: 'img',
      'aria-label': scene.title,
      'font-size': TEXT_PX,
      'font-family': 'inherit',
      style: 'max-width:100%;height:auto;font-variant-numeric:tabular-nums',
    },
    svg('title', {}, scene.title),
    svg(
      'clipPath',
      { id: clip },
      svg('rect', { x: left, y: top, width: px(width), height: px(height) }),
    ),
    svg('rect', {
      x: left,
      y: top,
      width: px(width),
      height: px(height),
      fill: PAPER,
      class: 'ch-sea',
    }),
    svg(
      'g',
      { 'clip-path': `url(#${clip})` },
      coast.length > 0 && choices.coast && land(coast, w),
      grid,
      outline &&
        svg('path', { d: outline, fill: REGION, stroke: REGION_EDGE, 'stroke-width': 1.4 }),
      ...(choices.bands ? scene.lines.map((line) => band(line, w)) : []),
      ...(choices.before
        ? scene.lines.flatMap((line) => [before(line, w), runArrow(line, w)])
        : []),
      ...(choices.intercepts && drAt
        ? scene.lines.map((line) => interceptArrow(line, w, drAt))
        : []),
      region?.ellipse &&
        svg('path', {
          d: pathData(ringPoints(region.ellipse, w), true),
          fill: 'none',
          stroke: REGION_EDGE,
          'stroke-width': 1,
          'stroke-dasharray': '2 3',
        }),
      choices.hat &&
        scene.hat &&
        scene.hat.length > 2 &&
        svg('path', {
          d: pathData(ringPoints(scene.hat, w), true),
          fill: 'none',
          stroke: ACCENT,
          'stroke-width': 3.5,
          'stroke-linejoin': 'round',
          opacity: 0.8,
          class: 'ch-hat',
        }),
      ...shapes.map(({ line, pieces }) => lineNode(line, pieces)),
      ...gps,
      ...labels,
      drAt && drSymbol(drAt),
      drLabel,
      fixAt && fixSymbol(fixAt),
      fixLabel,
    ),
    edge,
  );
}
