import { ACCENT, hue, INK, PAPER, REJECTED } from '../svg/inks.js';
import { px, svg, type SvgNode } from '../svg/svg-node.js';
import { HALO } from './halo.js';
import { textWidth, type Room } from './labels.js';
import type { ChartScene } from './scene.js';
import { project, type ChartWindow, type Point } from './window.js';

/** Trade symbol of a fix: a circle with a dot. */
export function fixSymbol([x, y]: Point): SvgNode {
  return svg(
    'g',
    { transform: `translate(${px(x)},${px(y)})` },
    svg('circle', { r: 7.5, fill: 'none', stroke: ACCENT, 'stroke-width': 2 }),
    svg('circle', { r: 1.9, fill: ACCENT }),
  );
}

/** Trade symbol of an estimated position: a square with a dot. */
export function estimateSymbol([x, y]: Point): SvgNode {
  return svg(
    'g',
    { transform: `translate(${px(x)},${px(y)})`, class: 'ch-ep' },
    svg('rect', {
      x: -7,
      y: -7,
      width: 14,
      height: 14,
      fill: 'none',
      stroke: ACCENT,
      'stroke-width': 2,
    }),
    svg('circle', { r: 1.9, fill: ACCENT }),
  );
}

/** Trade symbol of a dead-reckoning position: a half circle on its place. */
export function drSymbol([x, y]: Point): SvgNode {
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
export function besideLabel(
  [x, y]: Point,
  text: string,
  room: Room,
  bold: boolean,
): SvgNode | null {
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

/** Where the bodies stood overhead, once the window is wide enough to hold them. */
export function geographicalPositions(scene: ChartScene, w: ChartWindow, room: Room): SvgNode[] {
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
