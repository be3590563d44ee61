import { ACCENT, FAINT, INK, PAPER, RULE } from '../svg/inks.js';
import { pathData, px, svg, type SvgNode } from '../svg/svg-node.js';
import { ARC_LEAST_DEG, ARC_MOST_DEG, type DrumPose } from './drum-pose.js';
import { label, type PanelSize } from './drum-svg.js';

const RAD = Math.PI / 180;
/** Degrees of the arc that the close view shows. */
const SHOWN_DEG = 11;

/** A close view of the arc about its index: a line each degree, each standing at half its degree round the pivot. */
export function arcSvg(pose: DrumPose, { width, height }: PanelSize): SvgNode {
  const radius = width / 2 / Math.sin((SHOWN_DEG / 4) * RAD);
  const top = height * 0.4;
  const at = (readingDeg: number, r: number): [number, number] => {
    // The arc is fixed to the frame; it is drawn turned so that the arm stands upright in the middle.
    const turn = (readingDeg / 2 - pose.armDeg) * RAD;
    return [width / 2 - r * Math.sin(turn), top - radius + r * Math.cos(turn)];
  };
  const tick = (d: number) => {
    const length = d % 10 === 0 ? 30 : d % 5 === 0 ? 23 : 15;
    const [x1, y1] = at(d, radius);
    const [x2, y2] = at(d, radius + length);
    return svg('line', {
      x1: px(x1),
      y1: px(y1),
      x2: px(x2),
      y2: px(y2),
      stroke: INK,
      'stroke-width': d % 5 === 0 ? 1.8 : 1.2,
    });
  };
  const nodes: SvgNode[] = [];
  const from = Math.max(ARC_LEAST_DEG, Math.ceil(pose.readingDeg - SHOWN_DEG / 2 + 0.1));
  const to = Math.min(ARC_MOST_DEG, Math.floor(pose.readingDeg + SHOWN_DEG / 2 - 0.1));
  for (let d = from; d <= to; d++) {
    const [mark] = at(d, radius + 30);
    if (mark < 2 || mark > width - 2) continue;
    nodes.push(tick(d));
    const [x, y] = at(d, radius + 42);
    if (d % 5 === 0 && x > 16 && x < width - 16)
      nodes.push(label(String(Math.abs(d)), x, y, 'middle', 16, true));
  }
  const edge: [number, number][] = [];
  const half = SHOWN_DEG / 2;
  for (let d = -half; d <= half; d += 0.5) edge.push(at(pose.readingDeg + d, radius));
  const off = at(-2.5, radius + 42);
  return svg(
    'g',
    {},
    svg('rect', {
      x: 0.5,
      y: 0.5,
      width: width - 1,
      height: height - 1,
      fill: PAPER,
      stroke: RULE,
    }),
    svg('path', { d: pathData(edge), fill: 'none', stroke: FAINT, 'stroke-width': 1.4 }),
    ...nodes,
    svg('path', {
      d: pathData(
        [
          [width / 2, top - 1],
          [width / 2 - 8, top - 26],
          [width / 2 + 8, top - 26],
        ],
        true,
      ),
      fill: 'none',
      stroke: ACCENT,
      'stroke-width': 1.8,
    }),
    svg('line', {
      x1: width / 2,
      x2: width / 2,
      y1: top - 26,
      y2: top,
      stroke: ACCENT,
      'stroke-width': 1.6,
    }),
    label('arc, degrees', 8, 15, 'start', 12, false, FAINT),
    off[0] > width * 0.55 && off[0] < width - 50
      ? label('off the arc', off[0], height - 12, 'middle', 12, false, FAINT)
      : null,
  );
}

/** Where pivot and arc stand in the picture of the frame; the middle of the arc straight below the pivot. */
function frameShape({ width, height }: PanelSize) {
  const radius = Math.min(height * 0.74, width * 0.74);
  const pivot: [number, number] = [width / 2, Math.max(height * 0.12, (height - radius * 1.2) / 2)];
  return { radius, pivot, middle: (ARC_LEAST_DEG + ARC_MOST_DEG) / 4 };
}

/** The reading at which the arm would point there: x and y in the picture of the frame. */
export function frameReadingAt(x: number, y: number, size: PanelSize): number {
  const { pivot, middle } = frameShape(size);
  const turnDeg = Math.atan2(pivot[0] - x, y - pivot[1]) / RAD;
  return Math.min(ARC_MOST_DEG, Math.max(ARC_LEAST_DEG, 2 * (turnDeg + middle)));
}

/** The whole frame, small: where the arm stands. Pivot above, limb of the arc below, arm at half the reading. */
export function frameSvg(pose: DrumPose, { width, height }: PanelSize): SvgNode {
  const { radius, pivot, middle } = frameShape({ width, height });
  const at = (readingDeg: number, r: number): [number, number] => {
    const turn = (readingDeg / 2 - middle) * RAD;
    return [pivot[0] - r * Math.sin(turn), pivot[1] + r * Math.cos(turn)];
  };
  const bow = (r: number) => {
    const points: [number, number][] = [];
    for (let d = ARC_LEAST_DEG; d <= ARC_MOST_DEG; d += 2.5) points.push(at(d, r));
    return points;
  };
  const line = (a: [number, number], b: [number, number], ink: string, weight: number) =>
    svg('line', {
      x1: px(a[0]),
      y1: px(a[1]),
      x2: px(b[0]),
      y2: px(b[1]),
      stroke: ink,
      'stroke-width': weight,
      'stroke-linecap': 'round',
    });
  const ticks: SvgNode[] = [];
  for (let d = 0; d <= 120; d += 10) {
    ticks.push(line(at(d, radius), at(d, radius * 1.04), INK, 1));
    if (d % 30 === 0) {
      const [x, y] = at(d, radius * 1.12);
      ticks.push(label(String(d), x, y, 'middle', 11));
    }
  }
  return svg(
    'g',
    {},
    svg('rect', {
      x: 0.5,
      y: 0.5,
      width: width - 1,
      height: height - 1,
      fill: PAPER,
      stroke: RULE,
    }),
    svg('path', { d: pathData(bow(radius)), fill: 'none', stroke: INK, 'stroke-width': 2.4 }),
    svg('path', { d: pathData(bow(radius * 0.9)), fill: 'none', stroke: FAINT, 'stroke-width': 1 }),
    line(pivot, at(ARC_LEAST_DEG, radius), FAINT, 2),
    line(pivot, at(ARC_MOST_DEG, radius), FAINT, 2),
    ...ticks,
    line(pivot, at(pose.readingDeg, radius * 1.02), ACCENT, 3),
    svg('circle', {
      cx: px(pivot[0]),
      cy: px(pivot[1]),
      r: 5,
      fill: PAPER,
      stroke: INK,
      'stroke-width': 2,
    }),
  );
}
