import { ACCENT, FAINT, INK, PAPER, REGION, REGION_EDGE } from '../svg/inks.js';
import { svgDrawing, pathData, px, svg, type SvgNode } from '../svg/svg-node.js';
import { label } from './drum-svg.js';
import { imageOffset, type CheckBy } from './mirror-errors.js';

export interface CheckPicture {
  readonly by: CheckBy;
  readonly readingArcmin: number;
  readonly indexErrorArcmin: number;
  /** Reflected image to the right +, minutes of arc. */
  readonly sideErrorArcmin: number;
  /** Semi-diameter of the Sun, minutes of arc. */
  readonly sdArcmin: number;
}

const SIZE = 240;
/** Minutes of arc across the field shown: close for a line or a star, wide for two Suns. */
const ACROSS: Readonly<Record<CheckBy, number>> = { horizon: 24, star: 24, Sun: 150 };

const frame = (title: string, ...children: (SvgNode | null)[]) =>
  svgDrawing(
    { width: SIZE, height: SIZE },
    {},
    svg('title', {}, title),
    svg('circle', {
      cx: SIZE / 2,
      cy: SIZE / 2,
      r: SIZE / 2 - 2,
      fill: PAPER,
      stroke: FAINT,
      'stroke-width': 2,
    }),
    ...children,
  );

/** The two images of an index check through the telescope, to scale; the reflected one in the accent. */
export function checkSvg(picture: CheckPicture): SvgNode {
  const { by } = picture;
  const scale = SIZE / ACROSS[by];
  const up = imageOffset(picture.readingArcmin, picture.indexErrorArcmin) * scale;
  const side = picture.sideErrorArcmin * scale;
  const c = SIZE / 2;
  if (by === 'horizon') {
    const half = (SIZE / 2) * 0.98;
    const at = Math.min(half, Math.max(-half, up));
    const reach = Math.sqrt(Math.max(0, half * half - at * at));
    return frame(
      'The horizon, direct on the left and reflected on the right',
      svg('line', { x1: 3, x2: c, y1: c, y2: c, stroke: INK, 'stroke-width': 2.4 }),
      svg('line', {
        x1: c,
        x2: px(c + reach),
        y1: px(c - at),
        y2: px(c - at),
        stroke: ACCENT,
        'stroke-width': 2.4,
      }),
      svg('line', { x1: c, x2: c, y1: 6, y2: SIZE - 6, stroke: FAINT, 'stroke-dasharray': '3 5' }),
      label('direct', c - 10, SIZE - 44, 'end', 12, false, FAINT),
      label('reflected', c + 10, SIZE - 44, 'start', 12, false, FAINT),
    );
  }
  const disc = (x: number, y: number, r: number, reflected: boolean) =>
    svg('circle', {
      cx: px(x),
      cy: px(y),
      r: px(r),
      fill: reflected ? REGION : 'none',
      stroke: reflected ? ACCENT : by === 'Sun' ? REGION_EDGE : INK,
      'stroke-width': 2,
      ...(reflected ? { 'stroke-dasharray': '6 3' } : {}),
    });
  const r = by === 'Sun' ? picture.sdArcmin * scale : 4;
  const inField = Math.hypot(side, up) < c + r;
  return frame(
    by === 'Sun'
      ? 'Two images of the Sun, the reflected one dashed'
      : 'Two images of a star, the reflected one dashed',
    disc(c, c, r, false),
    inField ? disc(c + side, c - up, r, true) : null,
  );
}

/** The arc past the edge of the index mirror and in it, with the step that a leaning mirror makes (drawn larger than life). */
export function perpendicularitySvg(leanArcmin: number): SvgNode {
  const c = SIZE / 2;
  const step = leanArcmin * 1.5;
  // One curve across the edge of the mirror: without a lean the two pieces meet.
  const bow = (x1: number, x2: number, lift: number, ink: string) => {
    const points: [number, number][] = [];
    for (let x = x1; x <= x2; x += 4) points.push([x, c + 0.0016 * (x - c) ** 2 - lift]);
    return svg('path', { d: pathData(points), fill: 'none', stroke: ink, 'stroke-width': 5 });
  };
  return frame(
    'The arc seen direct and in the index mirror',
    svg('rect', {
      x: c,
      y: 56,
      width: 84,
      height: 128,
      fill: REGION,
      stroke: INK,
      'stroke-width': 1.6,
    }),
    bow(16, c, 0, INK),
    bow(c, c + 80, step, ACCENT),
    label('arc', 44, c + 30, 'middle', 12, false, FAINT),
    label('index mirror', c + 42, 172, 'middle', 12, false, FAINT),
  );
}
