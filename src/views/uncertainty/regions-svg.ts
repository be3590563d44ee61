import type { Position } from '../../core/units/index.js';
import { clipName, frameFor } from '../chart/chart-svg.js';
import { graticule } from '../chart/graticule.js';
import { Room, textWidth } from '../chart/labels.js';
import { ringPoints } from '../chart/line-geometry.js';
import { project, windowAround, type Point } from '../chart/window.js';
import { ACCENT, INK, PAPER, REGION, REGION_EDGE } from '../svg/inks.js';
import { svgDrawing, pathData, px, svg, type SvgNode } from '../svg/svg-node.js';
import type { LevelRegion } from './uncertainty-model.js';

/** The level at the top or the bottom of its region, where there is room. */
function levelLabel(
  { level }: LevelRegion,
  points: readonly Point[],
  isTop: boolean,
  room: Room,
): SvgNode | null {
  const side = isTop ? -1 : 1;
  const end = points.reduce((best, p) => (p[1] * side > best[1] * side ? p : best));
  const text = `${Math.round(level * 100)} %`;
  const at = [end[0] - textWidth(text) / 2, end[1] + (isTop ? -4 : 13)] as const;
  if (!room.tryText(at[0], at[1], text)) return null;
  return svg(
    'text',
    {
      x: px(at[0]),
      y: px(at[1]),
      fill: INK,
      'font-size': 11,
      stroke: PAPER,
      'stroke-width': 3,
      'paint-order': 'stroke',
    },
    text,
  );
}

/** The regions of all levels, one in another, about the fix: a piece of chart with its graticule. */
export function regionsSvg(
  levels: readonly LevelRegion[],
  fix: Position,
  size: { readonly width: number; readonly height: number },
): SvgNode {
  const frame = frameFor(size.width, size.height);
  const w = windowAround(frame, [fix, ...levels.flatMap((l) => l.outline)], 1.25);
  const { lines, edge } = graticule(w);
  const outer = [...levels].sort((a, b) => b.level - a.level);
  const [x, y] = project(w, fix);
  const clip = clipName(frame);
  const room = new Room(frame);
  room.take(x, y, 10);
  const labels = outer.map((l, i) => levelLabel(l, ringPoints(l.outline, w), i % 2 === 0, room));
  const { left, top, width, height } = frame;
  const title = 'Regions about the fix, by how often they hold the ship';
  return svgDrawing(
    size,
    { 'aria-label': title, 'font-family': 'inherit', style: 'font-variant-numeric:tabular-nums' },
    svg('title', {}, title),
    svg('clipPath', { id: clip }, svg('rect', { x: left, y: top, width, height })),
    svg(
      'g',
      { 'clip-path': `url(#${clip})` },
      svg('rect', { x: left, y: top, width, height, fill: PAPER }),
      lines,
      ...outer.map((l) =>
        svg('path', {
          d: pathData(ringPoints(l.outline, w), true),
          fill: REGION,
          stroke: REGION_EDGE,
          'stroke-width': 1.1,
        }),
      ),
      svg('circle', {
        cx: px(x),
        cy: px(y),
        r: 6.5,
        fill: 'none',
        stroke: ACCENT,
        'stroke-width': 2,
      }),
      svg('circle', { cx: px(x), cy: px(y), r: 1.8, fill: ACCENT }),
      ...labels,
    ),
    edge,
  );
}
