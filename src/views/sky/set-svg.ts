import type { BestSet } from '../../core/plan/index.js';
import { formatBearing } from '../../core/units/index.js';
import { HALO } from '../chart/halo.js';
import { FAINT, INK, REGION, REGION_EDGE, RULE } from '../svg/inks.js';
import { pathData, px, svg, type SvgNode } from '../svg/svg-node.js';
import type { Rect } from './label-room.js';

const POINTS = 48;

/** Which way the bodies of the set stand, and the 1σ ellipse of the fix they would give. */
export function setSvg(set: BestSet, numbers: ReadonlyMap<string, number>, box: Rect): SvgNode {
  const foot = 30;
  const radius = Math.min(box.width, box.height - foot) / 2 - 14;
  const [cx, cy] = [box.x + box.width / 2, box.y + radius + 16];
  const toward = (azDeg: number, r: number) => {
    const a = (azDeg * Math.PI) / 180;
    return [cx + r * Math.sin(a), cy - r * Math.cos(a)] as const;
  };
  const scale = (0.62 * radius) / set.majorNm;
  const axis = (set.majorAzimuth.degrees * Math.PI) / 180;
  const ellipse = Array.from({ length: POINTS }, (_, i) => {
    const t = (2 * Math.PI * i) / POINTS;
    const [along, across] = [set.majorNm * Math.cos(t), set.minorNm * Math.sin(t)];
    const north = along * Math.cos(axis) - across * Math.sin(axis);
    const east = along * Math.sin(axis) + across * Math.cos(axis);
    return [cx + east * scale, cy - north * scale] as const;
  });
  const spokes = set.bodies.flatMap((b) => {
    const azDeg = b.azimuth.degrees;
    const [x1, y1] = toward(azDeg, radius * 0.74);
    const [x2, y2] = toward(azDeg, radius);
    const [tx, ty] = toward(azDeg, radius + 9);
    return [
      svg('line', {
        x1: px(x1),
        y1: px(y1),
        x2: px(x2),
        y2: px(y2),
        stroke: INK,
        'stroke-width': 2,
      }),
      svg(
        'text',
        {
          ...HALO,
          x: px(tx),
          y: px(ty + 4),
          'text-anchor': 'middle',
          fill: INK,
          'font-size': 11.5,
          'font-weight': 650,
        },
        String(numbers.get(b.body) ?? ''),
      ),
    ];
  });
  const line = (text: string, y: number) =>
    svg(
      'text',
      { x: px(cx), y: px(y), 'text-anchor': 'middle', fill: INK, 'font-size': 10.5 },
      text,
    );
  return svg(
    'g',
    {},
    svg('circle', { cx: px(cx), cy: px(cy), r: px(radius), fill: 'none', stroke: RULE }),
    svg('path', {
      d: pathData(ellipse, true),
      fill: REGION,
      stroke: REGION_EDGE,
      'stroke-width': 1.4,
    }),
    svg('circle', { cx: px(cx), cy: px(cy), r: 1.8, fill: INK }),
    svg('line', {
      x1: px(cx),
      x2: px(cx),
      y1: px(cy - radius),
      y2: px(cy - radius + 7),
      stroke: FAINT,
    }),
    svg(
      'text',
      { x: px(cx), y: px(cy - radius + 17), 'text-anchor': 'middle', fill: FAINT, 'font-size': 10 },
      'N',
    ),
    ...spokes,
    line(`± ${set.radialNm.toFixed(1)} nm radial, 1σ`, box.y + box.height - 15),
    line(
      `${set.majorNm.toFixed(1)} × ${set.minorNm.toFixed(1)} nm, long axis ${formatBearing(set.majorAzimuth.degrees)}`,
      box.y + box.height - 2,
    ),
  );
}
