import { px, svg, type SvgNode } from '../svg/svg-node.js';
import { ACCENT, FAINT, INK, PAPER, RULE } from '../svg/inks.js';
import { VERNIER_LINES, VERNIER_SPACE, type DrumPose } from './drum-pose.js';

export interface PanelSize {
  readonly width: number;
  readonly height: number;
}

const RAD = Math.PI / 180;
const DEG_PER_MINUTE = 6;
/** Lines nearer to the rim of what is seen of the drum than this are too crowded to draw. */
const SEEN_DEG = 66;

/**
 * The drum seen square to its axis, with the vernier fixed beside it. A line of the drum stands on the cylinder at 6° a
 * minute from the index, so that lines crowd toward the rim as they do on the instrument.
 * @param marked whether the vernier line that meets a drum line is shown in the accent
 */
export function drumSvg(
  pose: DrumPose,
  size: PanelSize,
  magnify: number,
  marked: boolean,
): SvgNode {
  const { width, height } = size;
  const radius = (height / 2 / Math.sin(SEEN_DEG * RAD)) * magnify;
  // Zero of the vernier below the middle: its ten lines stand above it.
  const zeroY = height / 2 + (magnify > 1 ? height * 0.34 : height * 0.12);
  const y = (minutes: number) => zeroY - radius * Math.sin(minutes * DEG_PER_MINUTE * RAD);
  const inside = (at: number, margin = 4) => at > 24 + margin && at < height - margin;
  const seam = width * 0.44;
  const long = Math.min(width * 0.16, 74);
  const first = Math.ceil(pose.drumMinutes - SEEN_DEG / DEG_PER_MINUTE);
  const last = Math.floor(pose.drumMinutes + SEEN_DEG / DEG_PER_MINUTE);
  const lines: SvgNode[] = [];
  for (let m = first; m <= last; m++) {
    const at = y(m - pose.drumMinutes);
    if (!inside(at)) continue;
    const minute = ((m % 60) + 60) % 60;
    const five = minute % 5 === 0;
    const meets = marked && m === Math.floor(pose.drumMinutes + 1e-9) + pose.vernierLine;
    lines.push(
      svg('line', {
        x1: seam,
        x2: px(seam + (five ? long : long * 0.62)),
        y1: px(at),
        y2: px(at),
        stroke: meets ? ACCENT : INK,
        'stroke-width': meets ? 2.6 : five ? 1.7 : 1.1,
      }),
    );
    if ((five || magnify > 1) && inside(at, 10))
      lines.push(label(String(minute), seam + long + 9, at, 'start', five ? 15 : 12, five));
  }
  const vernier: SvgNode[] = [];
  for (let k = 0; k <= VERNIER_LINES; k++) {
    const at = y(k * VERNIER_SPACE);
    if (!inside(at)) continue;
    const meets = marked && k === pose.vernierLine;
    const figured = k === 0 || k === 5 || k === 10 || magnify > 1;
    vernier.push(
      svg('line', {
        x1: px(seam - (k % 5 === 0 ? long : long * 0.62)),
        x2: seam,
        y1: px(at),
        y2: px(at),
        stroke: meets ? ACCENT : INK,
        'stroke-width': meets ? 2.6 : k === 0 ? 2.2 : 1.1,
      }),
    );
    if (figured && inside(at, 8))
      vernier.push(label(String(k % 10), seam - long - 9, at, 'end', 13, k % 5 === 0));
  }
  const rim = (edge: number) =>
    svg('line', { x1: edge, x2: edge, y1: 0, y2: height, stroke: FAINT, 'stroke-width': 1.2 });
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
    ...shading(seam, width, height),
    rim(seam),
    ...lines,
    ...vernier,
    label('vernier', seam - 6, 16, 'end', 12, false, FAINT),
    label('drum, minutes', seam + 6, 16, 'start', 12, false, FAINT),
  );
}

/** The knurled end of the drum, to the right of its engraved ring. */
function shading(seam: number, width: number, height: number): SvgNode[] {
  const from = width * 0.78;
  const out: SvgNode[] = [];
  for (let a = -84; a <= 84; a += 6) {
    const at = px(height / 2 + (height / 2) * Math.sin(a * RAD));
    out.push(
      svg('line', { x1: from, x2: width - 1, y1: at, y2: at, stroke: RULE, 'stroke-width': 1 }),
    );
  }
  out.push(
    svg('line', { x1: from, x2: from, y1: 0, y2: height, stroke: FAINT, 'stroke-width': 1 }),
  );
  return out;
}

/** Text with its middle at a height. */
export function label(
  text: string,
  x: number,
  y: number,
  anchor: 'start' | 'middle' | 'end',
  size: number,
  strong = false,
  fill: string = INK,
): SvgNode {
  const weight = strong ? { 'font-weight': 650 } : {};
  return svg(
    'text',
    { x: px(x), y: px(y + size * 0.35), 'text-anchor': anchor, 'font-size': size, fill, ...weight },
    text,
  );
}
