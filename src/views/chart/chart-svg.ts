import { ACCENT, PAPER, REGION, REGION_EDGE } from '../svg/inks.js';
import { svgDrawing, pathData, px, svg, type SvgNode } from '../svg/svg-node.js';
import { graticule } from './graticule.js';
import { Room } from './labels.js';
import { landSvg, type Coast } from './land-svg.js';
import { linePieces, ringPoints } from './line-geometry.js';
import { band, before, interceptArrow, lineNode, runArrow } from './line-svg.js';
import { lineLabels } from './line-label.js';
import { DEFAULT_CHOICES, type ChartChoices, type ChartScene } from './scene.js';
import {
  besideLabel,
  drSymbol,
  estimateSymbol,
  fixSymbol,
  geographicalPositions,
} from './symbols-svg.js';
import { project, type Box, type ChartWindow, type Point } from './window.js';

export type { Coast } from './land-svg.js';

const TEXT_PX = 12.5;
/** The same frame clips the same, so equal names of still drawings do no harm. */
export const clipName = ({ left, top, width, height }: Box): string =>
  `ch-frame-${[left, top, width, height].map(Math.round).join('-')}`;

/** Room for labels round the frame. */
export function frameFor(width: number, height: number): Box {
  const left = width < 480 ? 72 : 80;
  return { left, top: 10, width: width - left - 12, height: height - 10 - 30 };
}

export interface ChartDrawing {
  readonly choices?: ChartChoices;
  /** Rings of the coastline, none unless the window is far out. */
  readonly coast?: Coast;
  /** Name of the clipping path, for a page that holds several charts. */
  readonly clip?: string;
  /** A round place that texts keep clear of. */
  readonly keepClear?: { readonly at: Point; readonly radius: number };
}

/** The chart as a drawing: Mercator, north up, its border the distance scale. */
export function chartSvg(
  scene: ChartScene,
  w: ChartWindow,
  size: { readonly width: number; readonly height: number },
  drawing: ChartDrawing = {},
): SvgNode {
  const { choices = DEFAULT_CHOICES, coast = [], clip = clipName(w.frame), keepClear } = drawing;
  const { lines: grid, edge } = graticule(w);
  const room = new Room(w.frame);
  if (keepClear) room.take(...keepClear.at, keepClear.radius);
  const shapes = scene.lines.map((line) => ({ line, pieces: linePieces(line, w) }));
  const fixAt = scene.fix && project(w, scene.fix.place);
  const drAt = scene.dr && project(w, scene.dr.place);
  if (fixAt) room.take(fixAt[0], fixAt[1], 12);
  if (drAt) room.take(drAt[0], drAt[1], 12);
  const fixLabel = fixAt && besideLabel(fixAt, scene.fix?.label ?? '', room, true);
  const drLabel = drAt && besideLabel(drAt, scene.dr?.label ?? '', room, false);
  const gps = geographicalPositions(scene, w, room);
  const labels = lineLabels(shapes, w, room);
  const { left, top, width, height } = w.frame;
  const region = scene.region;
  const outline = region ? pathData(ringPoints(region.outline, w), region.isBounded) : '';
  return svgDrawing(
    { width: px(size.width), height: px(size.height) },
    {
      'aria-label': scene.title,
      'font-size': TEXT_PX,
      'font-family': 'inherit',
      style: 'font-variant-numeric:tabular-nums',
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
      coast.length > 0 && choices.coast && landSvg(coast, w),
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
      fixAt && (scene.fix?.isEstimate ? estimateSymbol : fixSymbol)(fixAt),
      fixLabel,
    ),
    edge,
  );
}
