import { formatLatitude, formatLongitude } from '../../core/units/index.js';
import { svg, px, type SvgNode } from '../svg/svg-node.js';
import { FAINT, INK, PAPER, RULE } from '../svg/inks.js';
import { meridionalParts } from './mercator.js';
import { extent, type ChartWindow } from './window.js';

/** Distances between lines of a graticule that a navigator counts in, minutes of arc. */
const STEPS_ARCMIN = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 900, 1800, 3600];

/** The smallest step that is at least `leastPx` wide. */
export function graticuleStep(perMinute: number, leastPx: number): number {
  return STEPS_ARCMIN.find((step) => step * perMinute >= leastPx) ?? 3600;
}

/** Multiples of `stepArcmin` from `fromDeg` to `toDeg`, degrees. */
export function multiples(fromDeg: number, toDeg: number, stepArcmin: number): number[] {
  const first = Math.ceil((fromDeg * 60) / stepArcmin - 1e-9);
  const last = Math.floor((toDeg * 60) / stepArcmin + 1e-9);
  return Array.from({ length: Math.max(0, Math.min(400, last - first + 1)) }, (_, i) => {
    return ((first + i) * stepArcmin) / 60;
  });
}

/** Minutes with a tenth only where the graticule divides the minute; whole degrees without minutes. */
function edgeLabel(degrees: number, stepArcmin: number, format: typeof formatLatitude): string {
  if (stepArcmin < 1) return format(degrees, 1);
  const text = format(degrees, 0);
  return stepArcmin >= 60 ? text.replace(/(\d+°)00′/, '$1') : text;
}

const LABEL_PX = 11.5;
const SCALE_BAR = 6;

/** The bars of the border: alternately inked, one for each step, as the edge of a paper chart. */
function border(w: ChartWindow): SvgNode[] {
  const { southDeg, northDeg, westDeg, eastDeg } = extent(w);
  const { left, top, width, height } = w.frame;
  const step = graticuleStep(w.perMinute, 14);
  const nodes: SvgNode[] = [];
  const y = (latDeg: number) =>
    top + height / 2 - (meridionalParts(latDeg) - w.parts) * w.perMinute;
  const x = (lonDeg: number) => left + width / 2 + (lonDeg - w.lonDeg) * 60 * w.perMinute;
  const clampY = (value: number) => Math.max(top, Math.min(top + height, value));
  const clampX = (value: number) => Math.max(left, Math.min(left + width, value));
  const isInked = (deg: number) => Math.round((deg * 60) / step) % 2 === 0;
  const bar = (bx: number, by: number, bw: number, bh: number) =>
    svg('rect', { x: px(bx), y: px(by), width: px(bw), height: px(bh), fill: FAINT });
  const d = step / 60;
  for (const lat of multiples(southDeg - d, northDeg, step).filter(isInked)) {
    const [low, high] = [clampY(y(lat)), clampY(y(lat + d))];
    if (low - high < 0.2) continue;
    nodes.push(bar(left - SCALE_BAR, high, SCALE_BAR, low - high));
    nodes.push(bar(left + width, high, SCALE_BAR, low - high));
  }
  for (const lon of multiples(westDeg - d, eastDeg, step).filter(isInked)) {
    const [from, to] = [clampX(x(lon)), clampX(x(lon + d))];
    if (to - from < 0.2) continue;
    nodes.push(bar(from, top - SCALE_BAR, to - from, SCALE_BAR));
    nodes.push(bar(from, top + height, to - from, SCALE_BAR));
  }
  return nodes;
}

/** Parallels, meridians, their labels at the left and lower edge, and the border that serves as distance scale. */
export function graticule(w: ChartWindow): { lines: SvgNode; edge: SvgNode } {
  const { southDeg, northDeg, westDeg, eastDeg } = extent(w);
  const { left, top, width, height } = w.frame;
  const latStep = graticuleStep(w.perMinute, 64);
  const lonStep = graticuleStep(w.perMinute, 96);
  const lines: SvgNode[] = [];
  const labels: SvgNode[] = [];
  for (const lat of multiples(southDeg, northDeg, latStep)) {
    const y = px(top + height / 2 - (meridionalParts(lat) - w.parts) * w.perMinute);
    lines.push(svg('line', { x1: px(left), x2: px(left + width), y1: y, y2: y }));
    const text = edgeLabel(lat, latStep, formatLatitude);
    const anchor = { x: px(left - SCALE_BAR - 5), y: y + 4, 'text-anchor': 'end' };
    if (y > top + 6 && y < top + height - 4) labels.push(svg('text', anchor, text));
  }
  for (const lon of multiples(westDeg, eastDeg, lonStep)) {
    const x = px(left + width / 2 + (lon - w.lonDeg) * 60 * w.perMinute);
    lines.push(svg('line', { x1: x, x2: x, y1: px(top), y2: px(top + height) }));
    const text = edgeLabel(lon, lonStep, formatLongitude);
    const anchor = { x, y: px(top + height + SCALE_BAR + 14), 'text-anchor': 'middle' };
    if (x > left + 34 && x < left + width - 34) labels.push(svg('text', anchor, text));
  }
  const box = { x: px(left), y: px(top), width: px(width), height: px(height), fill: 'none' };
  const outer = {
    x: px(left - SCALE_BAR),
    y: px(top - SCALE_BAR),
    width: px(width + 2 * SCALE_BAR),
    height: px(height + 2 * SCALE_BAR),
    fill: 'none',
  };
  return {
    lines: svg('g', { stroke: RULE, 'stroke-width': 1 }, ...lines),
    edge: svg(
      'g',
      {},
      svg('rect', { ...outer, stroke: 'none', fill: 'none' }),
      ...border(w),
      svg('rect', { ...box, stroke: INK, 'stroke-width': 1 }),
      svg('rect', { ...outer, stroke: FAINT, 'stroke-width': 0.8 }),
      svg('g', { fill: FAINT, 'font-size': LABEL_PX, stroke: PAPER, 'stroke-width': 0 }, ...labels),
    ),
  };
}
