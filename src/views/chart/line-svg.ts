import { dash, hue, REJECTED } from '../svg/inks.js';
import { pathData, svg, type SvgNode } from '../svg/svg-node.js';
import { linePieces } from './line-geometry.js';
import type { ChartLine } from './scene.js';
import { project, type ChartWindow, type Point } from './window.js';

/** The strip between one standard deviation toward and one away. */
export function band(line: ChartLine, w: ChartWindow): SvgNode | null {
  const [toward] = linePieces(line, w, { offsetArcmin: line.sigmaArcmin });
  const [away] = linePieces(line, w, { offsetArcmin: -line.sigmaArcmin });
  if (!toward || !away || line.isOff) return null;
  const ring = [...toward, ...away.reverse()];
  return svg('path', { d: pathData(ring, true), fill: hue(line.style), opacity: 0.13 });
}

export function lineNode(line: ChartLine, points: readonly Point[][]): SvgNode {
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

export function before(line: ChartLine, w: ChartWindow): SvgNode | null {
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
export function runArrow(line: ChartLine, w: ChartWindow): SvgNode | null {
  if (line.isOff || !line.foot) return null;
  const [from, to] = [project(w, line.foot.taken), project(w, line.foot.carried)];
  return arrow(from, to, { stroke: hue(line.style), 'stroke-width': 1, opacity: 0.75 });
}

/** The intercept, plotted from the DR. */
export function interceptArrow(line: ChartLine, w: ChartWindow, dr: Point): SvgNode | null {
  if (line.isOff || !line.foot) return null;
  return arrow(dr, project(w, line.foot.carried), {
    stroke: hue(line.style),
    'stroke-width': 1.1,
    'stroke-dasharray': '5 3',
  });
}
